"""Questions about the ac side: what reaches an outlet, where the neutral is bonded, what earth joins."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping
from functools import cached_property

from diagrammer.circuit.graph import around
from diagrammer.circuit.nets import Nets
from diagrammer.circuit.view import GROUND, View, node_of
from diagrammer.frozen import frozen

LINES = ("L", "L1", "L2", "L3")
SUPPLIES = ("shore", "generator")


@frozen
class Source:
    """A port that makes ac: its line terminals, its neutral ("" without), positions in which it gives."""

    node: str
    lines: tuple[str, ...]
    neutral: str
    positions: tuple[str, ...]


@frozen
class Neutral:
    """A neutral in one combination of positions: the sources that live on it and its links to earth."""

    sources: tuple[Source, ...]
    bonds: tuple[tuple[str, str], ...]  # (node, cable id or "")
    positions: tuple[tuple[str, str], ...]


class Mains:
    """The ac side of one view."""

    def __init__(self, view: View):
        self.view = view

    @cached_property
    def sources(self) -> tuple[Source, ...]:
        found = []
        for name, give in self.view.gives:
            poles = self.view.poles(name, give.port)
            lines = tuple(terminal for pole, terminal in poles.items() if pole in LINES)
            if lines and self.view.system.nodes[name].kind.name != "pv inverter":
                found.append(Source(name, lines, poles.get("N", ""), give.positions))
        return tuple(found)

    def unguarded(self, outlet: str) -> tuple[str, ...]:
        """Path of nodes from a source to an outlet that no residual-current device stands in, () where each has one."""
        starts = {line: source for source in self.sources for line in source.lines}
        came: dict[str, str] = {line: "" for line in starts}
        queue = deque(starts)
        wanted = set(self.view.hot(outlet, "main"))
        while queue:
            here = queue.popleft()
            if here in wanted:
                return tuple(dict.fromkeys(node_of(terminal) for terminal in reversed(list(_back(came, here)))))
            for other, data in around(self.view.graph, here):
                if other not in came and not self._guards(data):
                    came[other] = here
                    queue.append(other)
        return ()

    def _guards(self, data: Mapping) -> bool:
        if data["form"] in ("conductor", "joint"):
            return False
        node = self.view.system.nodes[data["value"].node]
        return node.kind.name in ("rcd", "rcbo") and node["residual"] <= RESIDUAL

    def neutrals(self) -> Iterator[Neutral]:
        """Every neutral with a source on it that something is wired to, in every combination of positions."""
        by_neutral = {source.neutral: source for source in self.sources
                      if self._wired.intersection(source.lines)}
        for live in self.view.positions.live(_neutral):
            positions = live.combination.positions
            here = [by_neutral[t] for t in live.terminals if t in by_neutral]
            here = tuple(source for source in here if _stands(source.node, source.positions, positions))
            if here:
                terminals = set(live.terminals)
                yield Neutral(here, tuple(self._bonds(terminals, positions)), tuple(positions.items()))

    def _bonds(self, terminals: set[str], positions: Mapping[str, str]) -> Iterator[tuple[str, str]]:
        for inside in self.view.system.insides:
            bond = inside.form == "bond" and {inside.a, inside.b} & terminals
            if bond and _stands(inside.node, inside.positions, positions):
                yield inside.node, ""
        for wire in self.view.system.conductors:
            if wire.role == "bond" and {wire.a, wire.b} & terminals:
                yield node_of(wire.a if wire.a in terminals else wire.b), wire.cable

    @cached_property
    def earths(self) -> Nets:
        """Terminals that protective and bonding conductors join; a galvanic isolator passes a fault's current."""
        return Nets(self.view.graph, lambda data: data["side"] == "earth")

    @cached_property
    def metal(self) -> Nets:
        """The same for direct current, which a galvanic isolator stops."""
        return Nets(self.view.graph, lambda data: data["side"] == "earth" and data["form"] != "capacitor")

    def unearthed(self) -> Iterator[str]:
        """Nodes on ac whose earth terminal leads to no source's earth and no ground, the first of each net."""
        if not self._on_ac:
            return
        good = {self.earths[name] for name, node in self.view.system.nodes.items() if node.kind.name in GROUND}
        for source in self.sources:
            if earth := self.earth_of(source.node):
                good.add(self.earths[earth])
        for name in self.view.system.nodes:
            earth = self.earth_of(name)
            if earth and self.earths[earth] not in good and name in self._on_ac:
                good.add(self.earths[earth])
                yield name

    def earth_of(self, name: str) -> str:
        earth = f"{name}.earth"
        return earth if earth in self.view.system.terminals else ""

    @cached_property
    def _on_ac(self) -> frozenset[str]:
        """The nodes on which a line of an ac cable lands."""
        return frozenset(node_of(end) for end in self._wired)

    @cached_property
    def _wired(self) -> frozenset[str]:
        """The terminals on which a line of an ac cable or a bolted joint of one lands."""
        wired = (*self.view.system.conductors, *self.view.system.joints)
        return frozenset(end for one in wired if one.core in LINES for end in (one.a, one.b))

    def first_devices(
        self, starts: tuple[str, ...], barred: tuple[str, ...] = (),
    ) -> Iterator[tuple[str, float, tuple[str, ...]]]:
        """From line terminals outwards: (first overcurrent device, longest way to it [m], cables on the way).

        A device is "" where the way ends at a node that is no device; the way never enters `barred` terminals.
        """
        queue = deque((terminal, 0.0, ()) for terminal in starts)
        seen = {*starts, *barred}
        while queue:
            here, length, cables = queue.popleft()
            for other, data in around(self.view.graph, here):
                if other in seen:
                    continue
                seen.add(other)
                if data["form"] == "overcurrent":
                    yield node_of(other), length, cables
                elif data["form"] == "conductor":
                    queue.append((other, length + self._length(data["value"]), (*cables, data["value"].cable)))
                elif data["form"] == "joint" or self.view.system.nodes[node_of(other)].kind.sort == "through":
                    queue.append((other, length, cables))
            if self.view.system.nodes[node_of(here)].kind.sort != "through" and cables:
                yield "", length, cables

    def _length(self, wire) -> float:
        """[m], of a run whose division is not said the whole of it."""
        run = self.view.system.runs.get(wire.run)
        return wire.length if wire.length is not None else run.length if run else 0.0


RESIDUAL = 0.03  # [A] the most for additional protection of persons: IEC 60364-4-41, 415.1


def _back(came: Mapping[str, str], here: str) -> Iterator[str]:
    while here:
        yield here
        here = came[here]


def _neutral(data: Mapping) -> bool:
    return data["core"] == "N" and data["form"] != "bond"


def _stands(node: str, needed: tuple[str, ...], positions: Mapping[str, str]) -> bool:
    return not needed or positions.get(node) in (None, *needed)
