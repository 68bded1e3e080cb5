"""The loads together, or one load's start, ask more of an inverter than it gives.

Why: it switches off under load, and what must run stops with it; one that does not switch off overheats.

Fix: take a larger inverter, run less at once, or say under `states` what never runs together.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.demand import Part, at_once, demand
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("the inverter's data sheet", "common practice: of loads that run for moments one at a time")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 2 kW, surge: 4 kW, neutral: bonded}
  ac-panel: {kind: ac panel, rating: 16 A}
  kettle: {kind: ac load, power: 1 kW}
  cooler: {kind: ac load, power: 500 W, start: 2 kW}
circuits:
  - {feed: bank/fuse class-t 300 A 20 kA -> switch battery 300 A -> inverter, wire: [4/0 AWG 0.5 m, 0.5 m]}
  - {ac: inverter -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}
  - {ac: ac-panel/breaker 10 A -> kettle, wire: 12 AWG 2 m}
  - {ac: ac-panel/breaker 10 A -> cooler, wire: 12 AWG 2 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  inverter: {kind: inverter, power: 1.2 kW, surge: 2.4 kW, neutral: bonded}
# ^^^^^^^^ inverter-overloaded: `kettle` and `cooler` take 1.5 kW together, but `inverter` gives 1.2 kW
# ^^^^^^^^ inverter-overloaded: `cooler` takes 3 kW while it starts, but `inverter` gives 2.4 kW for a moment
  ac-panel: {kind: ac panel, rating: 16 A}
  kettle: {kind: ac load, power: 1 kW}
  cooler: {kind: ac load, power: 500 W, start: 3 kW}
circuits:
  - {feed: bank/fuse class-t 300 A 20 kA -> switch battery 300 A -> inverter, wire: [4/0 AWG 0.5 m, 0.5 m]}
  - {ac: inverter -> breaker 16 A/ac-panel, wire: 12 AWG 1 m}
  - {ac: ac-panel/breaker 10 A -> kettle, wire: 12 AWG 2 m}
  - {ac: ac-panel/breaker 10 A -> cooler, wire: 12 AWG 2 m}
"""
INVERTERS = ("inverter", "inverter charger")
MARGIN = 1.0001  # a limit that is met to the last digit is not passed


def check(survey: Survey) -> Iterator[Finding]:
    asked, met = demand(survey.cleared), set()
    for node in survey.cleared.system.nodes.values():
        if node.kind.name not in INVERTERS or node.name in met:
            continue
        units = [one for one in asked.side_by_side(node) if one.kind.name in INVERTERS]
        met.update(one.name for one in units)
        parts = asked.behind([out for one in units for out in asked.outputs(one)], asked.making(node))
        yield from _together(survey, units, parts)
        yield from _starting(survey, units, parts)


def _together(survey: Survey, units: list[Node], parts: tuple[Part, ...]) -> Iterator[Finding]:
    most = at_once(survey.study, parts, lambda part: part.watts * part.factor)
    gives = sum(one["power"] for one in units)
    if most.value > gives * MARGIN:
        unit = [one.name for one in units]
        state = f" ({most.state})" if survey.system.states else ""
        taken = f"{show(most.value, 'W')}{' together' if len(most.loads) > 1 else ''}{state}"
        message = (f"{names(most.loads)} {verb(most.loads, 'takes', 'take')} {taken}, "
                   f"but {names(unit)} {verb(unit, 'gives', 'give')} {show(gives, 'W')}")
        yield finding(__name__, survey, Fact("inverter-overloaded", nodes=(*unit, *most.loads)), message)


def _starting(survey: Survey, units: list[Node], parts: tuple[Part, ...]) -> Iterator[Finding]:
    """Each load's start by itself against what the inverter stands for a moment, where both are stated."""
    surges = [one.get("surge") for one in units]
    if None in surges:
        return
    for part in parts:
        asked = part.start * part.factor
        if asked > sum(surges) * MARGIN:
            unit = [one.name for one in units]
            message = (f"{name(part.load.name)} takes {show(asked, 'W')} while it starts, but {names(unit)} "
                       f"{verb(unit, 'gives', 'give')} {show(sum(surges), 'W')} for a moment")
            yield finding(__name__, survey, Fact("inverter-overloaded", nodes=(*unit, part.load.name)), message)
