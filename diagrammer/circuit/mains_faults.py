"""Prospective short-circuit currents of the ac side: what each source drives through the lines that it reaches.

A fault is taken between the cores of one cable. The sources of ac are never joined but in a `set`, whose units add; else
the one that gives most, or least, counts. An inverter limits its current and switches itself off.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cached_property

import networkx as nx

from diagrammer.circuit.flow import HOT
from diagrammer.circuit.graph import edges
from diagrammer.circuit.mains import LINES, Source
from diagrammer.circuit.reach import length_of
from diagrammer.circuit.view import View
from diagrammer.electrics.conductor import heating, resistance
from diagrammer.electrics.fault import ac_largest, ac_smallest, ac_usual
from diagrammer.frozen import frozen
from diagrammer.kinds.alternating import amps, phases
from diagrammer.netlist.model import Conductor, Node

INVERTERS = ("inverter", "inverter charger")


@frozen
class Supply:
    """One source of ac: its largest short-circuit current [A] at its terminals, None where nothing is known, and
    whether that is the node's own figure, or a mere assumption: what is usual of a public supply."""

    node: Node
    source: Source
    largest: float | None
    stated: bool

    @property
    def assumed(self) -> bool:
        return not self.stated and self.node.kind.name == "shore"

    @property
    def volts(self) -> float:
        return self.node.values.mains

    @property
    def name(self) -> str:
        return self.node.name


class MainsFaults:
    """The short circuits of one view's ac side; `sources` are those of Mains."""

    def __init__(self, view: View, sources: tuple[Source, ...]):
        self.view, self.sources = view, sources

    @cached_property
    def supplies(self) -> tuple[Supply, ...]:
        practice = self.view.system.practice
        nodes = ((self.view.system.nodes[one.node], one) for one in self.sources)
        return tuple(Supply(node, one, _largest(node, practice), bool(node.get("short circuit"))) for node, one in nodes)

    def reaching(self, terminal: str) -> Iterator[tuple[Supply, float]]:
        """The supplies that some position joins to a terminal, each with the cold resistance [Ω] of one line to it."""
        for supply, reached in self._reached:
            if terminal in reached:
                yield supply, reached[terminal]

    def largest(self, terminal: str, assumed: bool = False) -> tuple[float, tuple[Supply, ...]] | None:
        """Largest prospective current [A] at a line's terminal, and what drives it; None where nothing is known. With
        `assumed` of the supplies that are only assumed, else of all others."""
        sums: dict[str, tuple[float, tuple[Supply, ...]]] = {}
        for supply, ohms in self.reaching(terminal):
            if supply.largest and supply.assumed == assumed:
                key = supply.node.get("set") or f" {supply.name}"
                driven, others = sums.get(key, (0.0, ()))
                ways = 1 if len(supply.source.lines) > 1 else 2  # between lines the voltage doubles as the way does
                sums[key] = (driven + ac_largest(supply.volts, supply.largest, ways * ohms), (*others, supply))
        return max(sums.values(), key=lambda one: one[0], default=None)

    def smallest(self, terminal: str) -> float | None:
        """Smallest prospective current [A] between a line and the neutral at a terminal, of the supplies whose own
        short-circuit current is stated; None where there is none."""
        hot = heating(HOT)
        return min((ac_smallest(supply.volts, supply.node["short circuit"], 2 * ohms * hot)
                    for supply, ohms in self.reaching(terminal) if supply.stated), default=None)

    @cached_property
    def _reached(self) -> tuple[tuple[Supply, Mapping[str, float]], ...]:
        """Each supply and {terminal: resistance [Ω] of the shortest way to it}."""
        return tuple((supply, self._ohms(supply, self._joined(supply))) for supply in self.supplies)

    def _joined(self, supply: Supply) -> set[str]:
        """The terminals that are one net with it in a combination in which it gives."""
        lines, needed = set(supply.source.lines), supply.source.positions
        return {terminal for live in self._live if lines & set(live.terminals)
                and (not needed or live.combination.positions.get(supply.name, needed[0]) in needed)
                for terminal in live.terminals}

    @cached_property
    def _live(self):
        return tuple(self.view.positions.live(_line))

    def _ohms(self, supply: Supply, joined: set[str]) -> Mapping[str, float]:
        starts = set(supply.source.lines) & joined
        return nx.multi_source_dijkstra_path_length(self._lines.subgraph(joined), starts) if starts else {}

    @cached_property
    def _lines(self) -> nx.MultiGraph:
        graph = nx.MultiGraph()
        graph.add_nodes_from(line for one in self.sources for line in one.lines)
        graph.add_weighted_edges_from((a, b, self._resistance(data["value"]) if data["form"] == "conductor" else 0.0)
                                      for a, b, _, data in edges(self.view.graph) if _line(data))
        return graph

    def _resistance(self, wire: Conductor) -> float:
        if wire.wire.size is None:
            return 0.0
        length = length_of(self.view.system, wire)
        return resistance(wire.wire.size, length, material=wire.wire.material) / wire.wire.parallel


def _line(data: Mapping) -> bool:
    return data["core"] in LINES


def _largest(node: Node, practice: str) -> float | None:
    """[A] at the source's terminals: its own figure, else what is usual for its kind."""
    kind, stated = node.kind.name, node.get("short circuit") or 0.0
    rated = amps(node.get("power"), node.values.mains, phases(node.values))
    if kind == "shore":
        return stated or ac_usual("shore", practice, "A")
    if node.get("surge"):
        return rated * node["surge"] / node["power"] * ac_usual("surge", practice, "x surge")
    times = ac_usual("inverter" if kind in INVERTERS else kind, practice, "x rated")
    return max(rated * times, stated) if times else None
