"""A conductor carries more in the worst state than it may carry for good where it lies.

Why: its insulation ages, softens and melts; bare copper then touches what it lies against, and that can burn.

Fix: take a thicker conductor or one of better insulation, or lay it where it is cooler and alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from diagrammer.circuit.carrying import Limit
from diagrammer.circuit.loading import Current
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.thinnest import allowed
from diagrammer.circuit.view import Fact, node_of
from diagrammer.electrics.rounding import above
from diagrammer.netlist.model import Conductor
from diagrammer.quantity import show
from diagrammer.rules.conductors._words import between
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "33 CFR 183.425 Table 5 and its notes (ABYC E-11 below 50 V alike)",
    "NEC Tables 310.16, 310.15(B)(1) and 310.15(C)(1)",
    "NEC 110.14(C) (quoted): terminals of 60 °C in circuits of up to 100 A, of 75 °C above, where not marked for more",
    "ISO 13297 Table A.1 (partly from memory), IEC 60364-5-52 for ac",
)
SYMPTOMS = ("voltage-drop", "thin-return", "protection-will-not-clear")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  winch:  {kind: load, voltage: 12 V, power: 1.2 kW, duty: motor}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 150 A -> winch, wire: 4 AWG 2 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  winch:  {kind: load, voltage: 12 V, power: 1.2 kW, duty: motor}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 110 A -> winch, wire: {size: 6 AWG, length: 2 m, in: engine-space}}
  #                 ^^^^^^^^^^^^^^^^^^^^^^^^^^^ conductor-overloaded: the 6 AWG from `F2` to `winch` carries 119 A...
"""
ROUNDING = 1e-6


def check(survey: Survey) -> Iterator[Finding]:
    worst: dict[str, tuple[float, Conductor, Current, Limit]] = {}
    for wire in survey.cleared.system.conductors:
        limit = survey.carrying.limit(wire, survey.voltages.of_line(wire.circuit))
        current = survey.loading.conductor(wire)
        if limit and not _carries(limit, current.amps) and not _symptom(survey, wire, limit):
            share = current.amps / limit.ampacity.amps
            if wire.circuit not in worst or above(share, worst[wire.circuit][0], ROUNDING):
                worst[wire.circuit] = (share, wire, current, limit)
    for _, wire, current, limit in worst.values():
        yield _finding(survey, wire, current, limit)


def _carries(limit: Limit, amps: float) -> bool:
    return not above(amps, limit.ampacity.amps, ROUNDING)


def _symptom(survey: Survey, wire: Conductor, limit: Limit) -> bool:
    """Whether it carries that much only since another fault makes it."""
    usual = survey.loading.usual(wire.id)
    return wire.circuit in survey.doubtful or survey.drops.explain((wire.circuit,), usual.amps, limit.ampacity.amps)


def _finding(survey: Survey, wire: Conductor, current: Current, limit: Limit) -> Finding:
    found = limit.ampacity
    larger = _larger(survey, wire, current.amps)
    table = f"{found.table}{f', {found.note}' if found.note else ''}"
    return finding(
        __name__, survey, Fact("conductor-overloaded", (wire.cable,), (node_of(wire.a), node_of(wire.b))),
        f"{between(wire)} carries {show(current.amps, 'A')} ({current.when}); it may carry {show(found.amps, 'A')} "
        f"({table})",
        fix=f"Take {larger} or thicker, {_or(limit)}." if larger else "",
    )


def _or(limit: Limit) -> str:
    """What else helps: where the terminals hold the conductor down, no better insulation does."""
    if limit.ampacity.terminals is None:
        return "better insulation, or a cooler place"
    return "or say `terminations` where both ends are marked for more"


def _larger(survey: Survey, wire: Conductor, amps: float) -> str:
    """The thinnest size that may carry `amps` [A] in the same place."""
    volts = survey.voltages.of_line(wire.circuit)
    for one in allowed(survey.system, wire):
        limit = survey.carrying.of_size(one, wire, volts)
        if limit and _carries(limit, amps):
            return replace(wire.wire, size=one).label
    return ""
