"""A bar, switch, shunt or panel carries more than its rating, or stands behind a device that lets more through.

Why: bars soften their supports, contacts weld, and a shunt that is too hot burns what holds it.

Fix: take a part of a higher rating, or a smaller device ahead of it; divide the loads between two.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

from diagrammer.circuit.loading import NONE, Current
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.circuit.zones import Zones
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "common practice: a rating not below the current, nor below the device ahead (warning)",
    "NEC 408.36: a device ahead of a panel not above its rating",
    "ABYC E-11 11.6.1.2.3: a battery switch not below the main devices, or its cable (quoted)",
    "IEC 61439-1",
)
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 250 A, pair: return-bar}
  return-bar: {kind: bar, rating: 250 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  winch:  {kind: load, voltage: 12 V, power: 1.2 kW, duty: motor}
  lamp:   {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 150 A -> winch, wire: 4 AWG 2 m}
  - {feed: feed-bar/fuse class-t 60 A -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse class-t 5 A -> lamp, wire: 16 AWG 2 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 100 A}
# ^^^^^ overloaded-bar: shunt `meter` carries 118 A (parked, nothing charges, the banks low); it is rated 100 A
  feed-bar: {kind: bar, rating: 250 A, pair: return-bar}
  return-bar: {kind: bar, rating: 250 A}
  panel:  {kind: panel, rating: 30 A, pair: return-bar}
  winch:  {kind: load, voltage: 12 V, power: 1.2 kW, duty: motor}
  lamp:   {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 150 A -> feed-bar
  #                                    ^^^^^^^^^^^^^^^^^^^^ overloaded-bar: switch `Q1` is rated 150 A, and `F1`...
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 150 A -> winch, wire: 4 AWG 2 m}
  - {feed: feed-bar/fuse class-t 60 A -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse class-t 5 A -> lamp, wire: 16 AWG 2 m}
"""
THROUGH = ("switch", "shunt", "relay", "contactor", "isolator", "bms", "selector", "transfer", "rcd", "plug", "diode",
           "dump controller")
BARS = ("bar", "panel", "ac panel", "joint")
PANELS = ("bar", "panel", "ac panel")  # of these the device ahead counts too
INSIDE = ("contact", "shunt", "diode")  # forms of edge that a rating is for
ROUNDING = 1e-6


def check(survey: Survey) -> Iterator[Finding]:
    through = _through(survey)
    for node in survey.cleared.system.nodes.values():
        rating = node.get("rating")
        if not rating or node.kind.name not in (*THROUGH, *BARS):
            continue
        current = _into(survey, node) if node.kind.name in BARS else through.get(node.name, NONE)
        if survey.doubtful.intersection(survey.met_in.get(node.name, ())):
            continue
        if current.amps > rating * (1 + ROUNDING):
            if _symptom(survey, node, rating):
                continue
            yield finding(
                __name__, survey, Fact("overloaded-bar", nodes=(node.name,)),
                f"{node.kind.name} `{node.name}` carries {show(current.amps, 'A')} ({current.when}); it is rated "
                f"{show(rating, 'A')}",
            )
        elif node.name not in survey.after_protection.excused and (ahead := _ahead(survey, node, rating)):
            yield _behind(survey, node, rating, *ahead)


def _symptom(survey: Survey, node: Node, rating: float) -> bool:
    """Whether it carries that much only since its line loses too much voltage."""
    keys = _terminals(survey, node) if node.kind.name in BARS else [
        key for key, data in survey.cleared.edges.items() if data["form"] in INSIDE and data["value"].node == node.name]
    usual = max(survey.loading.usual(key).amps for key in keys)
    return survey.drops.explain(survey.met_in.get(node.name, ()), usual, rating)


def _through(survey: Survey) -> dict[str, Current]:
    """The largest current through any contact of a node."""
    found: dict[str, Current] = {}
    for key, data in survey.cleared.edges.items():
        if data["form"] in INSIDE:
            name = data["value"].node
            found[name] = max(found.get(name, NONE), survey.loading.inside(key), key=lambda one: one.amps)
    return found


def _into(survey: Survey, node: Node) -> Current:
    found = (survey.loading.into(one) for one in _terminals(survey, node))
    return max(found, key=lambda one: one.amps, default=NONE)


def _terminals(survey: Survey, node: Node) -> list[str]:
    return [terminal for port in node.ports for terminal in survey.cleared.poles(node.name, port.name).values()]


def _ahead(survey: Survey, node: Node, rating: float) -> tuple[str, float] | None:
    """The largest device through which sources feed a bar or battery switch, and what it lets through [A]; None where
    the part may carry that, or the devices behind it together let less through."""
    zones, kind = survey.zones, node.kind.name
    switch = kind == "selector" or "battery" in (node.get("type") or "")
    worst: tuple[float, str] = (0.0, "")
    for terminal in _terminals(survey, node) if switch or kind in PANELS else ():
        zone = zones.zone(terminal)
        if not zones.has_source(zone):
            lets = _lets(zones, zone)
            worst = max([worst, *((min(way.rating, lets), way.node.name) for way in zones.feeding(zone)
                           if way.rating and zones.beyond(way, zone).main and zones.sides.parts(way.key))])
    let = min(worst[0], _cable(survey, node)) if switch else worst[0]
    return (worst[1], let) if let > rating * (1 + ROUNDING) else None


def _lets(zones: Zones, zone: int) -> float:
    """[A] that the devices which feed nothing into a zone let out of it; without limit where a load stands in it."""
    system = zones.view.system
    if any(system.nodes[system.terminals[one].node].kind.uses for one in zones.members(zone)):
        return inf
    feeding = {way.key for way in zones.feeding(zone)}
    return sum(inf if way.rating is None else way.rating for way in zones.edges.get(zone, ()) if way.key not in feeding)


def _cable(survey: Survey, node: Node) -> float:
    """[A] the largest cable on a switch may carry."""
    found = []
    for wire in survey.cleared.system.conductors:
        if wire.side == "feed" and node.name in (survey.system.terminals[end].node for end in (wire.a, wire.b)):
            limit = survey.carrying.limit(wire, survey.voltages.of_line(wire.circuit))
            found.append(limit.ampacity.amps if limit else inf)
    return max(found, default=inf)


def _behind(survey: Survey, node: Node, rating: float, name: str, let: float) -> Finding:
    return finding(
        __name__, survey, Fact("overloaded-bar", nodes=(node.name, name)),
        f"{node.kind.name} `{node.name}` is rated {show(rating, 'A')}, and `{name}` ahead of it lets {show(let, 'A')} "
        "through",
        severity="warning",
    )
