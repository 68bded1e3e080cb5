"""A branch device is not smaller than the one that feeds it.

Why: a fault in one branch may open the device ahead of it, and everything behind that goes dark.

Fix: take a smaller branch device or a larger one ahead, about one to two, and compare their curves.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("IEC 60364-5-53 536 (from memory)", "common practice: about one to two between fuses of one sort")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
  alarm:  {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 30 A -> pump, wire: 10 AWG 3 m}
  - {feed: panel/fuse blade 3 A -> alarm, wire: 16 AWG 3 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
  alarm:  {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 30 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 30 A -> pump, wire: 10 AWG 3 m}
  #              ^^^^^^^^^^^^^^^ no-selectivity: the 30 A fuse `F2` is not smaller than the 30 A fuse `F1` that feeds...
  - {feed: panel/fuse blade 3 A -> alarm, wire: 16 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    met: set[str] = set()
    for way in survey.zones.ways:
        sides = survey.zones.source_side(way)
        if sides is None or survey.zones.has_source(sides[0]) or way.node.name in met:
            continue
        ahead = {one.node.name: one.rating for one in survey.zones.feeding(sides[0]) if one.node is not way.node}
        if not ahead or not way.rating or None in ahead.values() or way.rating < sum(ahead.values()):
            continue
        if not _others(survey, sides[0], {way.node.name, *ahead}):
            continue
        met.add(way.node.name)
        first = next(iter(ahead))
        yield finding(
            __name__, survey, Fact("no-selectivity", nodes=(way.node.name, first)),
            f"the {device(survey, way.node.name)} is not smaller than the {device(survey, first)} that feeds it",
        )


def _others(survey: Survey, zone: int, devices: set[str]) -> bool:
    """Whether anything else hangs between the two: with nothing there, it does not matter which of them opens."""
    zones, system = survey.zones, survey.system
    used = any(system.nodes[system.terminals[terminal].node].kind.uses for terminal in zones.members(zone))
    return used or any(one.node.name not in devices for one in zones.edges[zone])
