"""Shortest ways through a solved network from its sources to a consumer and back, and what is lost on them."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field
from itertools import takewhile

from diagrammer.circuit.flow import Operation
from diagrammer.frozen import changing, frozen
from diagrammer.netlist.model import Conductor


@frozen
class Poles:
    """The poles of a source, between which a drop counts. line: the other line of an ac source of two, which stands as
    far below `minus`, the neutral, as `plus` stands above it; "" of any other."""

    plus: str
    minus: str
    line: str = ""


@changing
class Forest:
    """Shortest ways from some poles, by terminal: from which source, and what it came by (conductor, nearer terminal, 1
    or -1 as it is gone along or against)."""

    source: dict[str, int] = field(default_factory=dict)
    came: dict[str, tuple[Conductor | None, str, int]] = field(default_factory=dict)

    def way(self, terminal: str) -> list[tuple[Conductor, int]]:
        """The conductors from the pole outwards, each with its sign."""
        found = []
        while terminal in self.came:
            wire, terminal, sign = self.came[terminal]
            if wire is not None:
                found.append((wire, sign))
        return found[::-1]

    def between(self, start: str, end: str) -> list[tuple[Conductor, int]]:
        """The conductors from one terminal to another of the same tree, each with its sign."""
        here, there = self.way(start), self.way(end)
        shared = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(here, there)))
        return [*((wire, -sign) for wire, sign in reversed(here[shared:])), *there[shared:]]


class Ways:
    """Those of one solved state. wires: conductors by id; ohms: [V] that each loses for an ampere; where nothing could
    be solved, what an ampere would lose."""

    def __init__(self, operation: Operation, wires: Mapping[str, Conductor], ohms: Mapping[str, float],
                 sources: Sequence[Poles]):
        self.sources = sources
        self._near: dict[str, list[tuple[str, Conductor | None, int]]] = {}
        self._lost: dict[str, float] = {}
        for branch in operation.network.branches:
            wire = wires.get(branch.name)
            self._near.setdefault(branch.a, []).append((branch.b, wire, 1))
            self._near.setdefault(branch.b, []).append((branch.a, wire, -1))
            if wire is not None:
                self._lost[wire.id] = ohms[wire.id] * (operation.flow.amps[wire.id] if operation.flow else 1.0)
        self._there = self._grow(_each(poles.plus for poles in sources))
        self._back = self._trees([pole for poles in sources for pole in (poles.minus, poles.line)])  # from "" nothing grows

    def lost(self, plus: str, minus: str) -> tuple[tuple[Conductor, float], ...] | None:
        """The conductors of the way there and of the way back to the same source, each with what it loses [V]; None
        where there is no such way."""
        if plus not in self._there.source:
            return None
        poles, tree = self.sources[self._there.source[plus]], self._back.source
        end = next((pole for pole in (poles.minus, poles.line) if minus in tree and tree[minus] == tree[pole]), "")
        if not end:
            return None
        back = [(wire, -sign) for wire, sign in self._back.between(end, minus)]
        return tuple((wire, sign * self._lost[wire.id]) for wire, sign in (*self._there.way(plus), *back))

    def _trees(self, poles: list[str]) -> Forest:
        """One tree for all that hangs together: from the first source's pole, the others somewhere in it."""
        found = Forest()
        for number, pole in enumerate(poles):
            if pole not in found.source:
                self._grow({pole: number}, found)
        return found

    def _grow(self, starts: dict[str, int], found: Forest | None = None) -> Forest:
        """Breadth first from the poles, to what is not reached yet."""
        found = found or Forest()
        found.source.update(starts)
        queue = deque(starts)
        while queue:
            here = queue.popleft()
            for other, wire, sign in self._near.get(here, ()):
                if other not in found.source:
                    found.source[other] = found.source[here]
                    found.came[other] = (wire, here, sign)
                    queue.append(other)
        return found


def _each(poles: Iterable[str]) -> dict[str, int]:
    """The number of the first source at each pole."""
    found: dict[str, int] = {}
    for number, pole in enumerate(poles):
        found.setdefault(pole, number)
    return found
