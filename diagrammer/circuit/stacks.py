"""Batteries and modules in series: which nets lie inside a stack, and how high each stands.

A net is inside a stack where a series conductor lands on it, or where nothing but storage or
modules meet, + of one on - of the next.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

import networkx as nx

from diagrammer.circuit.graph import edges
from diagrammer.circuit.view import View
from diagrammer.netlist.model import Conductor


class Stacks:
    """The series connections of one view."""

    def __init__(self, view: View):
        self.view = view

    @cached_property
    def cells(self) -> tuple[tuple[str, str, str, float, float], ...]:
        """(node, its +, its -, lowest, highest voltage [V]) of all that may be stacked."""
        volts = {(name, claim.port): (claim.low, claim.high) for name, claim in self.view.claims}
        found = []
        for name, give in self.view.gives:
            plus, minus = (self.view.pole(name, give.port, pole) for pole in "+-")
            if give.role in ("storage", "raw") and plus:  # a turbine may give ac
                found.append((name, plus, minus, *volts.get((name, give.port), (0.0, 0.0))))
        return tuple(found)

    @cached_property
    def inner(self) -> frozenset[int]:
        """The numbers of the nets inside a stack."""
        nets = self.view.nets
        linked = {nets[one.a] for one in self._links()}
        low = {nets[minus] for _, _, minus, *_ in self.cells}
        both = {nets[plus] for _, plus, *_ in self.cells} & low
        inner = frozenset(linked & low | {net for net in both if self._only_cells(net)})
        return inner.difference(self._closing(inner))

    def _links(self) -> Iterator[Conductor]:
        return (data["value"] for *_, data in edges(self.view.graph)
                if data["form"] == "conductor" and data["value"].role == "series")

    def _closing(self, inner: frozenset[int]) -> Iterator[int]:
        """Of each ring of cells the net that the file joins last: a stack that closes on itself has its top there."""
        nets = self.view.nets
        up = nx.DiGraph(
            (nets[minus], nets[plus]) for _, plus, minus, *_ in self.cells if {nets[plus], nets[minus]} <= inner)
        while not nx.is_directed_acyclic_graph(up):
            top = max((net for net, _ in nx.find_cycle(up)), key=self._joined.get)
            up.remove_node(top)
            yield top

    @cached_property
    def _joined(self) -> dict[int, int]:
        """{net: the place in the file's order of what joins it last}; of a net with a series link these alone count."""
        nets, linked = self.view.nets, {self.view.nets[one.a] for one in self._links()}
        wires = (one for one in self.view.system.conductors if one.role == "series" or nets[one.a] not in linked)
        return {nets[one.a]: number for number, one in enumerate((*self.view.system.joints, *wires))}

    def _only_cells(self, net: int) -> bool:
        own = {terminal for _, plus, minus, *_ in self.cells for terminal in (plus, minus)}
        return all(t in own for t in self.view.nets.members(net) if self.view.side(t))

    @cached_property
    def _below(self) -> dict[int, tuple[str, float, float]]:
        """{net inside a stack: the - of what stands under it, its lowest and highest voltage}."""
        found: dict[int, tuple[str, float, float]] = {}
        for net, *under in self._levels:
            found.setdefault(net, tuple(under))
        return found

    @cached_property
    def _levels(self) -> tuple[tuple[int, str, float, float], ...]:
        """(net of the +, the -, lowest, highest voltage [V]) of the cells whose + lies inside a stack."""
        levels = ((self.view.nets[plus], *rest) for _, plus, *rest in self.cells)
        return tuple(level for level in levels if level[0] in self.inner)

    def _down(self, terminal: str) -> tuple[str, float, float]:
        """The foot of the stack under a terminal, and the voltages down to it."""
        low, high = 0.0, 0.0
        while (net := self.view.nets[terminal]) in self._below:
            terminal, lowest, highest = self._below[net]
            low, high = low + lowest, high + highest
        return terminal, low, high

    def foot(self, minus: str) -> str:
        """The - at the foot of the stack that this - stands in; itself where it stands in none."""
        return self._down(minus)[0]

    def height(self, terminal: str | None) -> tuple[float, float]:
        """How far above its system's return a terminal stands inside a stack [V]; else nothing."""
        return self._down(terminal)[1:] if terminal else (0.0, 0.0)

    def inside(self, terminals: Sequence[str]) -> bool:
        """Whether a net lies inside a stack."""
        return self.view.nets[terminals[0]] in self.inner

    def shorted(self, terminals: tuple[str, ...]) -> tuple[str, str, str] | None:
        """(node, +, -): the top and the foot of one stack where both are on this net."""
        nets, met = self.view.nets, set(terminals)
        if self.inside(terminals):
            return None
        feet = {net: minus for net, minus, *_ in self._levels if minus in met}
        if not feet:
            return None
        for _ in self.cells:  # `feet` by net, a level further up each time
            for name, plus, minus, *_ in self.cells:
                foot = feet.get(nets[minus])
                if foot and plus in met:
                    return name, plus, foot
                if foot:
                    feet.setdefault(nets[plus], foot)
        return None
