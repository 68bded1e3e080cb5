"""The overcurrent device would open under the current that its own line carries for good.

Why: it opens for no fault, or ages until it does, and what hangs on it fails when it is needed.

Fix: take the next larger rating, and a conductor that may have it; or say under `states` which loads never run
together.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from diagrammer.circuit.loading import SUN, Current
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.circuit.zones import Way
from diagrammer.electrics import solar
from diagrammer.electrics.protection import next_rating, single
from diagrammer.electrics.rounding import above
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = (
    "IEC 60364-4-43 433.1: the design current at most the rating (from memory)",
    "NEC 210.20(A) and 215.3: 125 % of what runs for three hours or more",
    "NEC 690.8 and 690.9(B): 125 % of the brightest current of pv",
    "ABYC E-11 11.10 (from memory)",
)
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 100 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  heater: {kind: load, voltage: 12 V, power: 180 W, duty: heat}
circuits:
  - name:   main
    feed:   bank/fuse class-t 100 A -> switch battery 300 A -> panel
    return: bank -> meter -> return-bar
    wire:   [2 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 20 A -> heater, wire: 12 AWG 2 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 100 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  heater: {kind: load, voltage: 12 V, power: 180 W, duty: heat}
circuits:
  - name:   main
    feed:   bank/fuse class-t 100 A -> switch battery 300 A -> panel
    return: bank -> meter -> return-bar
    wire:   [2 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 10 A -> heater, wire: 12 AWG 2 m}
  #              ^^^^^^^^^^^^^^^ protection-too-small: the 10 A fuse `F2` carries 15.4 A (parked, nothing charges)
"""
ROUNDING = 1e-6
CONTINUOUS = "nec"  # the practice that asks more of the device of a continuous load (NEC 210.20(A))
CHARGERS = ("solar charger", "wind charger", "dc charger", "ac charger")


def check(survey: Survey) -> Iterator[Finding]:
    found: dict[str, list[tuple[float, Current, Way]]] = {}
    for way in survey.zones.ways:
        if way.rating:
            found.setdefault(way.node.name, []).append((*_asked(survey, way), way))
    for ways in found.values():
        asked, current, way = max(ways, key=lambda one: one[0])
        if above(asked, way.rating, ROUNDING) and not _symptom(survey, way):
            yield _finding(survey, way, asked, current)


def _symptom(survey: Survey, way: Way) -> bool:
    """Whether it carries that much only since another fault makes it."""
    lines, usual = survey.met_in[way.node.name], survey.loading.usual(way.key)
    return bool(survey.doubtful.intersection(lines)) or survey.drops.explain(lines, usual.amps, way.rating)


def _asked(survey: Survey, way: Way) -> tuple[float, Current]:
    """The rating [A] that a device needs at least, and the current it is for."""
    current = survey.loading.inside(way.key)
    if current.when == SUN:
        return current.amps * solar.factor("continuous"), current
    usual = survey.loading.usual(way.key)
    if survey.system.practice == CONTINUOUS:
        asked = min(usual.amps, _continuous(survey, way)) * single("continuous")
        return max((current.amps, current), (asked, usual), key=lambda one: one[0])
    return current.amps, current


def _continuous(survey: Survey, way: Way) -> float:
    """What can run through a device for three hours or more [A]: nothing, unless all that hangs on it does; chargers
    always do, at most with their stated input current."""
    zones, system, long = survey.zones, survey.cleared.system, single("continuous hours")
    for zone in (zones.zone(way.a), zones.zone(way.b)):
        if len(zones.edges[zone]) > 1 or zones.has_source(zone):
            continue
        at = [system.terminals[one] for one in zones.members(zone)]
        used = [(one, system.nodes[one.node]) for one in at if _draws(system.nodes[one.node])]
        if used and all(node.kind.name in CHARGERS or (node.get("hours") or 0) >= long for _, node in used):
            return sum((node.get("input current") or inf) if one.port == "in" else inf for one, node in used)
    return 0.0


def _draws(node: Node) -> bool:
    return node.kind.uses or node.kind.name in CHARGERS


def _finding(survey: Survey, way: Way, asked: float, current: Current) -> Finding:
    amps, name = show(current.amps, "A"), way.node.name
    needs = f", and needs {show(asked, 'A')} for that" if above(asked, current.amps, ROUNDING) else ""
    made = next_rating(asked)
    larger = f"Take a {show(made, 'A')} device, if the conductors may have it" if made else "Divide the line"
    return finding(
        __name__, survey, Fact("protection-too-small", nodes=(name,)),
        f"the {device(survey, name)} carries {amps}{needs} ({current.when})",
        fix=f"{larger}; or say under `states` which loads never run together.",
    )
