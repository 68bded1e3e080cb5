"""A conductor is thinner than the practice allows at all.

Why: a thin strand breaks where it is crimped, bent or shaken, whatever its current is.

Fix: take the smallest size allowed, or lay it in a sheath with others where that allows a thinner one.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.protection import SENSE_PORTS
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.thinnest import covered, thinnest
from diagrammer.circuit.view import Fact, node_of
from diagrammer.electrics.conductor import area
from diagrammer.netlist.model import Conductor
from diagrammer.quantity import Size
from diagrammer.rules.conductors._words import between
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("33 CFR 183.425(d), (e)", "ABYC E-11 11.14 (quoted)", "ISO 10133 7.7", "NEC 310.3(A)",
           "NEC 725.49: leads that only sense or control are left out (from memory)")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
  bell:   {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {name: sense, feed: bank/fuse inline 1 A -> meter.sense, wire: 20 AWG 0.6 m}
  - {feed: panel/fuse blade 3 A -> lamp, wire: 16 AWG 3 m}
  - {feed: panel/fuse blade 3 A -> bell, wire: {size: 18 AWG, length: 2 m, in: sheath}}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 3 A -> lamp, wire: 18 AWG 3 m}
  #              ^^^^^^^^^^^^^^^^^^^^^^ below-minimum-size: the 18 AWG from `F2` to `lamp` is thinner than 16 AWG,...
"""


def check(survey: Survey) -> Iterator[Finding]:
    met: set[tuple[str, Size]] = set()
    for wire in survey.system.conductors:
        if wire.role == "bond" or wire.core == "earth" or wire.wire.size is None or _signal(survey, wire):
            continue
        least = thinnest(survey.system, wire)
        key = (wire.circuit, wire.wire.size)
        if least and key not in met and area(wire.wire.size) < area(least):
            met.add(key)
            where = "in a sheath" if covered(wire) else "on its own"
            yield finding(
                __name__, survey, Fact("below-minimum-size", (wire.cable,), (node_of(wire.a), node_of(wire.b))),
                f"{between(wire)} is thinner than {least.label}, the least by {survey.system.practice} {where}",
                fix=f"Take {least.label} or thicker.",
            )


def _signal(survey: Survey, wire: Conductor) -> bool:
    """Whether its path ends at a terminal that only senses or controls."""
    for leg in survey.start.circuits[wire.circuit].legs:
        ends = (leg.stops[0].leave, leg.stops[-1].enter)
        if wire.cable in leg.links and any(
                survey.system.terminals[end].port in (*SENSE_PORTS, "coil", "ground", "supply")
                for end in ends if end in survey.system.terminals):
            return True
    return False
