"""First phase: the netlist as a one-line graph.

Before: a System. After: every hop of every leg is in exactly one of
- `links`: feed, series and ac, one line a cable, to be drawn or referenced;
- `returns`: returns and bonds, each a stub, part of a return column, or "paired": a second
  conductor in a line already drawn (the stroke mark of the feeder).
All in file order.
"""

from __future__ import annotations

from dataclasses import field

from diagrammer.frozen import changing, frozen
from diagrammer.netlist.model import Circuit, Conductor, Leg, Node, System

LINES = ("L", "L1", "L2", "L3", "N")
SIGNALS = frozenset((
    "sense", "enable", "field", "lamp", "midpoint", "coil", "supply", "ground",
    "allow-load", "allow-charge",
))
RAILS = frozenset(("bar", "panel", "ac panel"))
STORES = frozenset(("bank", "battery"))

Vertex = tuple[str, str]  # node and part: the contact pair or pin drawn apart, else ""
Spot = tuple[Vertex, str]  # vertex and where on it: port or contact


@frozen
class Link:
    """One hop of a leg. cable "" where the two are bolted together; pole: what is written at
    each end against the habit of the role, to be said on the drawing."""

    index: int
    circuit: str
    cable: str
    role: str
    a: Spot
    b: Spot
    line: int
    derived: bool = False
    poles: tuple[str, str] = ("", "")

    def other(self, spot: Spot) -> Spot:
        return self.b if spot == self.a else self.a


@changing
class Wiring:
    system: System
    links: list[Link] = field(default_factory=list)
    returns: list[Link] = field(default_factory=list)
    paired: list[Link] = field(default_factory=list)
    cores: dict[str, int] = field(default_factory=dict)  # cable: conductors in its line
    vertices: dict[Vertex, None] = field(default_factory=dict)  # on the feed side, in file order
    by_circuit: dict[str, list[Conductor]] = field(default_factory=dict)


def wiring(system: System) -> Wiring:
    """The one-line graph of a system."""
    made = Wiring(system)
    counts: dict[str, int] = {}
    for conductor in system.conductors:
        counts[conductor.cable] = counts.get(conductor.cable, 0) + 1
        made.by_circuit.setdefault(conductor.circuit, []).append(conductor)
    for circuit in system.circuits:
        for leg in circuit.legs:
            for link in _hops(system, circuit, leg, len(made.links) + len(made.returns) + len(made.paired)):
                if leg.role in ("return", "bond"):
                    (made.paired if _goes_along(circuit, leg) else made.returns).append(link)
                else:
                    made.links.append(link)
                    made.cores[link.cable] = counts.get(link.cable, 1)
    for link in made.links:
        for spot in (link.a, link.b):
            if spot[1] not in SIGNALS:
                made.vertices.setdefault(spot[0])
    _double(made)
    return made


def _hops(system: System, circuit: Circuit, leg: Leg, first: int) -> list[Link]:
    hops = []
    for number, cable in enumerate(leg.links):
        near, far = leg.stops[number], leg.stops[number + 1]
        fed = leg.role in ("feed", "series")
        a, pole_a = spot(system.nodes[near.node], near.leave or near.enter, "2", fed)
        b, pole_b = spot(system.nodes[far.node], far.enter or far.leave, "1", fed)
        hops.append(Link(
            first + number, circuit.name, cable, leg.role, a, b, near.place.line, leg.derived,
            (_odd(leg.role, pole_a), _odd(leg.role, pole_b)),
        ))
    return hops


def _odd(role: str, pole: str) -> str:
    usual = {"feed": "-", "return": "+"}.get(role)
    return pole if pole == usual else ""


def spot(node: Node, terminal: str, contact: str = "1", fed: bool = False) -> tuple[Spot, str]:
    """Where on which vertex a terminal id lies, and its pole. `contact`: of a device that ac passes;
    a - that is fed stands apart from its +."""
    local = terminal[len(node.name) + 1:] if terminal != node.name else ""
    *port, last = local.split(".") if local else [""]
    pole = last if last in ("+", "-", *LINES) or "+" in last else ""
    name = ".".join(port if pole else [*port, last]) or "main"
    if node.kind.name == "terminals":
        return ((node.name, name), "main"), pole
    if node.kind.sort == "through" and name.isdigit() and int(name) > 2:
        low = (int(name) - 1) // 2 * 2 + 1
        return ((node.name, str(low)), "1" if int(name) == low else "2"), pole
    if node.kind.sort == "through" and name == "main":
        return ((node.name, ""), contact), pole
    if pole == "-" and (node.kind.name in STORES or fed and name not in SIGNALS):
        return ((node.name, ""), f"{name}-"), pole
    return ((node.name, ""), name), pole


def _goes_along(circuit: Circuit, leg: Leg) -> bool:
    """The return runs beside the feed all the way: two conductors in one line."""
    feed = circuit.legs[0]
    if leg.role != "return" or leg is feed or feed.role != "feed":
        return False
    met = [stop.node for stop in feed.stops]
    return leg.stops[0].node in met and leg.stops[-1].node in met and all(s.node in met for s in leg.stops)


def _double(made: Wiring) -> None:
    """Count the second conductor of a line whose return goes along."""
    circuits = {link.circuit for link in made.paired}
    for link in made.links:
        if link.circuit in circuits and link.role == "feed":
            made.cores[link.cable] = 2
