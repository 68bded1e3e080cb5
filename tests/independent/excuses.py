"""What the definitions let pass of the conductors that something can overload: distances and exempt conductors."""

from __future__ import annotations

import networkx as nx

from diagrammer.electrics.protection import distances
from diagrammer.netlist.model import Conductor
from tests.independent.wiring import Link, length, neighbours
from tests.independent.zones import Over, Zones, rated

EXEMPT_ALTERNATOR = 1.016  # [m] 40 in: 33 CFR 183.455(b)(2), ABYC E-11


class Excuses:
    """What the definitions let pass of the conductors that are over."""

    def __init__(self, zones: Zones):
        self.zones, self.system = zones, zones.system
        self.around = neighbours(zones.links, one_way=False)
        self.stand = distances(self.system.practice)

    def unexcused(self) -> list[Over]:
        found = [one for one in self.zones.over() if not self.exempt(one.wire)]
        over = {(one.wire.id, one.entry) for one in found}
        return [one for one in found if not self.in_time(one, over)]

    def exempt(self, wire: Conductor) -> bool:
        return wire.id in self.cranking() or self.bank_link(wire) or self.alternator_lead(wire)

    def cranking(self) -> frozenset[str]:
        """Conductors on a simple path of conductors from a starter battery to a starter motor."""
        if not hasattr(self, "_cranking"):
            graph = nx.MultiGraph()
            for link in self.zones.links:
                if link.kind in ("wire", "bolt", "contact"):
                    graph.add_edge(link.a, link.b, key=link.key)
            nodes = self.system.nodes.values()
            starts = [f"{n.name}.+" for n in nodes if n.kind.name in ("bank", "battery")]
            ends = [f"{n.name}.+" for n in nodes if n.kind.name == "starter"]
            found = set()
            for a in starts:
                for b in ends:
                    if a in graph and b in graph and nx.has_path(graph, a, b):
                        for path in nx.all_simple_edge_paths(graph, a, b, cutoff=12):
                            found.update(key for *_, key in path)
            self._cranking = frozenset(found)
        return self._cranking

    def bank_link(self, wire: Conductor) -> bool:
        """From post to post of one bank, or from a post to a bar that carries batteries only, within the distance."""
        posts = [self.system.terminals[t].node for t in (wire.a, wire.b)]
        kinds = [self.system.nodes[n].kind.name for n in posts]
        return (
            all(kind in ("bank", "battery") for kind in kinds) and length(self.system, wire) <= self.stand.from_battery
        )

    def alternator_lead(self, wire: Conductor) -> bool:
        """A self-limiting alternator's, short and sheathed, on the cranking circuit but not on a battery's post."""
        nodes = [self.system.nodes[self.system.terminals[t].node] for t in (wire.a, wire.b)]
        kinds = [n.kind.name for n in nodes]
        if "alternator" not in kinds or any(k in ("bank", "battery") for k in kinds):
            return False
        alternator = nodes[kinds.index("alternator")]
        amps, _, _ = self.zones.limit(wire) or (0, 0, 0)
        cranked = {t for link in self.zones.wires if link.key in self.cranking() for t in (link.a, link.b)}
        return (
            bool({wire.a, wire.b} & cranked)
            and wire.wire.sheathed
            and length(self.system, wire) <= EXEMPT_ALTERNATOR
            and alternator.get("self limiting") is not False
            and (alternator.get("output") or 0) <= amps
        )

    def in_time(self, one: Over, over: set[tuple[str, str]]) -> bool:
        """Whether every way on from where the excess comes in meets, near enough, a device that suits all it passed."""
        battery = any(
            f"{n}." in f"{one.entry}" for n in one.sources if self.system.nodes[n].kind.name in ("bank", "battery")
        )
        return self.ways_on(one, self.begins(one, over), battery)

    def begins(self, one: Over, over: set[tuple[str, str]]) -> float:
        """[m] the longest way over conductors in excess from where it begins to this one."""
        best, todo, seen = 0.0, [(one.entry, 0.0)], {one.wire.id}
        while todo:
            at, gone = todo.pop()
            best = max(best, gone)
            for other, link in self.around.get(at, ()):
                if link.kind == "device" or link.key in seen:
                    continue
                if link.kind == "wire" and (link.key, other) not in over:
                    continue  # the excess does not come this way
                seen.add(link.key)
                todo.append((other, gone + (length(self.system, link.value) if link.kind == "wire" else 0.0)))
        return best

    def ways_on(self, one: Over, gone: float, battery: bool) -> bool:
        wire = one.wire
        far = wire.b if one.entry == wire.a else wire.a
        seen, met = {wire.id}, False
        todo = [(far, gone + length(self.system, wire), wire.wire.sheathed, [wire])]
        while todo:
            at, metres, sheathed, run = todo.pop()
            ways = [(o, li) for o, li in self.around.get(at, ()) if li.key not in seen]
            if not ways:
                return False
            for other, link in ways:
                seen.add(link.key)
                if link.kind == "device":
                    if metres > self.allowed(sheathed, battery) + 1e-9 or not self.suits(link, run):
                        return False
                    met = True
                elif link.kind == "wire":
                    todo.append(
                        (
                            other,
                            metres + length(self.system, link.value),
                            sheathed and link.value.wire.sheathed,
                            [*run, link.value],
                        )
                    )
                else:
                    todo.append((other, metres, sheathed, run))
        return met

    def allowed(self, sheathed: bool, battery: bool) -> float:
        if not sheathed:
            return self.stand.bare
        return self.stand.from_battery if battery else self.stand.sheathed

    def suits(self, device: Link, run: list[Conductor]) -> bool:
        limits = [self.zones.limit(wire) for wire in run]
        return all(limit is None or rated(self.system, device) <= limit[1] * (1 + 1e-9) for limit in limits)
