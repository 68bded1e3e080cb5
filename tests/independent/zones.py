"""Protection of conductors from the definition, one conductor at a time: take it out, ask what flows to its ends.

No bridges, blocks or passes over trees: reachability for sources without a device, a maximum flow of
networkx for what comes through devices, every position one after another. Slow and plain.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import networkx as nx

from diagrammer.electrics.ampacity import OutsideTable, ampacity
from diagrammer.electrics.protection import largest_device
from diagrammer.netlist.model import Conductor, System
from tests.independent.wiring import (
    Link,
    Source,
    closed,
    feed_side,
    gives_now,
    links,
    positions,
    reach,
    sources,
)

MODULES = 2  # strings that need no device of their own, NEC 690.9(A)


@dataclass(frozen=True)
class Over:
    """A conductor of which one end sees too much. why: bare, limited, rating, sum; entry: the end where it comes in."""

    wire: Conductor
    entry: str
    why: str
    sources: tuple[str, ...]


class Zones:
    """The feed side and ac lines of a system without some circuits."""

    def __init__(self, system: System, without: frozenset[str] = frozenset()):
        self.system = system
        self.links = feed_side(system, links(system, without))
        self.wires = [link for link in self.links if link.kind == "wire"]
        self.sources = sources(system)
        self.now: list[dict[str, str]] = list(positions(system))

    def over(self) -> list[Over]:
        """Every conductor that something can overload, before excuses; the worst position counts."""
        found: dict[tuple[str, str], Over] = {}
        for now in self.now:
            live = [link for link in self.links if closed(self.system, link, now)]
            given = [s for s in self.sources if gives_now(s, now)]
            for link in self.wires:
                rest = [other for other in live if other is not link]
                for entry in dict.fromkeys((link.a, link.b)):
                    why = self.judge(link, entry, rest, given)
                    if why and (link.key, entry) not in found:
                        found[link.key, entry] = why
        return list(found.values())

    def judge(self, link: Link, entry: str, rest: list[Link], given: list[Source]) -> Over | None:
        wire = link.value
        limit = self.limit(wire)
        if limit is None:
            return None
        amps, one, several = limit
        towards = backwards(rest)
        zone = reach(towards, [entry], lambda li: li.kind == "device")
        inside = [s for s in given if s.terminal in zone]
        if any(s.amps == math.inf for s in inside):
            return Over(wire, entry, "bare", tuple(s.node for s in inside if s.amps == math.inf))
        own = sum(s.amps for s in inside if not exempt_pv(self.system, s))
        if own > amps * (1 + 1e-9):
            return Over(wire, entry, "limited", tuple(s.node for s in inside))
        edge = [li for li in rest if li.kind == "device" and (li.a in zone) != (li.b in zone)]
        through = [self.passed(device, zone, rest, given) for device in edge]
        through = [value for value in through if value > 0]
        if through and max(through) > one * (1 + 1e-9):
            return Over(wire, entry, "rating", ())
        if len(through) > 1 and self.flow(entry, rest, given) > several * (1 + 1e-9):
            return Over(wire, entry, "sum", ())
        return None

    def passed(self, device: Link, zone: set[str], rest: list[Link], given: list[Source]) -> float:
        """[A] what a device at the edge of a zone lets in: its rating, or less where less stands behind it; nothing
        where only modules do that need none, and whose conductors carry them or are too thin by another rule."""
        outer = device.b if device.a in zone else device.a
        others = [li for li in rest if li is not device]
        rating = rated(self.system, device)
        beyond = [s for s in given if s.terminal not in zone and not exempt_pv(self.system, s)]
        behind = self.flow(outer, others, beyond)
        return min(rating, behind)

    def flow(self, sink: str, rest: list[Link], given: list[Source]) -> float:
        """[A] the most that reaches `sink`, devices held to their rating."""
        graph = nx.DiGraph()
        graph.add_nodes_from(("S", sink))
        for link in rest:
            capacity = rated(self.system, link) if link.kind == "device" else math.inf
            add(graph, link.a, link.b, capacity)
            if link.kind != "diode":
                add(graph, link.b, link.a, capacity)
        for source in given:
            add(graph, "S", source.terminal, source.amps)
        try:
            return nx.maximum_flow_value(graph, "S", sink, capacity="capacity")
        except nx.NetworkXUnbounded:
            return math.inf

    def rating_of(self, wire: Conductor) -> float | None:
        """[A] of the largest overcurrent device in the conductor's own line; None where there is none."""
        line = next(one for one in self.system.circuits if one.name == wire.circuit)
        nodes = [self.system.nodes[stop.node] for leg in line.legs for stop in leg.stops]
        given = {node.get("rating") or 0 for node in nodes if node.kind.name in ("fuse", "breaker", "rcbo")}
        return max(given, default=0) or None

    def limit(self, wire: Conductor) -> tuple[float, float, float] | None:
        """[A] ampacity, the largest device, the largest sum of several; None where they are not known."""
        made, site = wire.wire, self.system.site
        if made.size is None:
            return None
        ac = wire.side == "ac"
        volts = 120.0 if ac else 12.0
        ambient = max(30.0, site.hottest or 30.0) if made.ambient is None else max(30.0, made.ambient)
        try:
            amps = ampacity(
                made.size,
                self.system.practice,
                made.insulation,
                ambient=ambient,
                bundle=max(made.bundle, 2 if ac else 1),
                engine_space="engine-space" in made.inside,
                ac=ac,
                parallel=made.parallel,
                volts=volts,
                terminations=made.terminations,
                circuit=self.rating_of(wire),
            ).amps
        except OutsideTable:
            return None
        size = made.size if made.parallel == 1 else None
        return (
            amps,
            largest_device(amps, self.system.practice, volts=volts, size=size),
            largest_device(amps, self.system.practice, volts=volts, size=size, several=True),
        )


def add(graph: nx.DiGraph, a: str, b: str, capacity: float) -> None:
    if graph.has_edge(a, b):
        capacity += graph.edges[a, b].get("capacity", math.inf)
    graph.add_edge(a, b, **({} if capacity == math.inf else {"capacity": capacity}))
    if capacity == math.inf:
        graph.edges[a, b].pop("capacity", None)


def backwards(chosen: list[Link]) -> dict[str, list[tuple[str, Link]]]:
    """Adjacency against the current: from a terminal to what can feed it."""
    around: dict[str, list[tuple[str, Link]]] = {}
    for link in chosen:
        around.setdefault(link.b, []).append((link.a, link))
        if link.kind != "diode":
            around.setdefault(link.a, []).append((link.b, link))
    return around


def rated(system: System, link: Link) -> float:
    return system.nodes[link.value.node].get("rating") or math.inf


def exempt_pv(system: System, source: Source) -> bool:
    node = system.nodes[source.node]
    return node.kind.name == "pv" and (node.get("parallel") or 1) <= MODULES
