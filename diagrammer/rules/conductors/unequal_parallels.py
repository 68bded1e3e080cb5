"""Conductors in parallel are of different size, metal or length.

Why: the current divides by their resistances, and the thickest or shortest carries more than its part.

Fix: make them alike in size, metal, length and terminals, or put a device on each that its own conductor may have.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.reach import length_of
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import GROUND, Fact, node_of
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Circuit, Conductor, Leg
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("NEC 310.10(G): the same length, material and size", "IEC 60364-5-52 523.7 (from memory)", "common practice")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 400 Ah, short circuit: 9 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 500 A}
  feed-bar: {kind: bar, rating: 500 A, pair: return-bar}
  return-bar: {kind: bar, rating: 500 A}
  winch:  {kind: load, voltage: 12 V, power: 600 W, duty: motor}
circuits:
  - {name: one, feed: bank/fuse class-t 225 A -> feed-bar, return: none, wire: 1/0 AWG 0.8 m}
  - {name: two, feed: bank/fuse class-t 225 A -> feed-bar, return: none, wire: 1/0 AWG 0.8 m}
  - {name: back, return: bank -> meter -> return-bar, wire: [2 parallel 1/0 AWG 0.4 m, 0.4 m]}
  - {feed: feed-bar/fuse class-t 100 A -> winch, wire: 4 AWG 2 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 400 Ah, short circuit: 9 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 500 A}
  feed-bar: {kind: bar, rating: 500 A, pair: return-bar}
  return-bar: {kind: bar, rating: 500 A}
  winch:  {kind: load, voltage: 12 V, power: 600 W, duty: motor}
circuits:
  - {name: one, feed: bank/fuse class-t 225 A -> feed-bar, return: none, wire: 1/0 AWG 0.8 m}
  - {name: two, feed: bank/fuse class-t 225 A -> feed-bar, return: none, wire: 1/0 AWG 1.4 m}
  #                        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ unequal-parallels: `one` and `two` run in parallel and are...
  - {name: back, return: bank -> meter -> return-bar, wire: [2 parallel 1/0 AWG 0.4 m, 0.4 m]}
  - {feed: feed-bar/fuse class-t 100 A -> winch, wire: 4 AWG 2 m}
"""
SAME_LENGTH = 0.05  # relative difference that lengths as they are measured may have (common practice)


@frozen
class Way:
    """One path between two terminals: its conductors, their sizes and whole length [m]."""

    wires: tuple[Conductor, ...]
    length: float

    @property
    def sizes(self) -> set:
        return {(wire.wire.size, wire.wire.parallel) for wire in self.wires}

    @property
    def metals(self) -> tuple[str, ...]:
        """Copper, tinned or not, and aluminium, in the order they are met."""
        return tuple(dict.fromkeys("aluminium" if wire.wire.material == "aluminium" else "copper" for wire in self.wires))

    @property
    def label(self) -> str:
        return self.wires[0].wire.size.label if self.wires[0].wire.size else ""


def check(survey: Survey) -> Iterator[Finding]:
    ways: dict[frozenset[str], list[Way]] = {}
    for circuit in (one for one in survey.cleared.system.circuits if one.name not in survey.lines):
        for leg in circuit.legs:
            if leg.role in ("feed", "return", "series") and not leg.derived and (way := _way(survey, circuit, leg)):
                ends = frozenset((leg.stops[0].leave, leg.stops[-1].enter))
                ways.setdefault(ends, []).append(way)
    for first, *others in ways.values():
        for other in others:
            if what := _differs(first, other):
                yield _finding(survey, first, other, what)


def _way(survey: Survey, circuit: Circuit, leg: Leg) -> Way | None:
    """None where it has no conductor, can be open (a switch, relay or isolator shares nothing for good), or ends on a
    chassis or hull, which carries the returns of many."""
    if any(survey.system.nodes[stop.node].kind.name in GROUND for stop in (leg.stops[0], leg.stops[-1])):
        return None
    nodes = [survey.system.nodes[stop.node] for stop in leg.stops[1:-1]]
    if any(node.kind.name not in ("fuse", "breaker", "shunt", "plug") for node in nodes):
        return None
    wires = tuple(survey.cleared.cables[link] for link in leg.links if link)
    return Way(wires, sum(length_of(survey.system, wire) for wire in wires)) if wires else None


def _differs(one: Way, other: Way) -> str:
    if one.sizes != other.sizes:
        return f"{one.label} and {other.label}"
    if set(one.metals) != set(other.metals):
        return f"of {' and '.join(one.metals)} and of {' and '.join(other.metals)}"
    shorter, longer = sorted((one.length, other.length))
    if shorter > 0 and longer > shorter * (1 + SAME_LENGTH):
        return f"{show(one.length, 'm')} and {show(other.length, 'm')} long"
    return ""


def _finding(survey: Survey, one: Way, other: Way, what: str) -> Finding:
    a, b = node_of(one.wires[0].a), node_of(one.wires[-1].b)
    return finding(
        __name__, survey, Fact("unequal-parallels", (other.wires[0].cable, one.wires[0].cable), (a, b)),
        f"`{one.wires[0].circuit}` and `{other.wires[0].circuit}` run in parallel and are {what}",
    )
