"""Shortest ways through a solved network from its sources to a consumer and back, and what is lost on them."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field

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
    """Shortest ways from some poles, by terminal: volts [V] lost from the pole to there, what it came by (conductor,
    nearer terminal, volts), and from which source."""

    volts: dict[str, float]
    source: dict[str, int]
    came: dict[str, tuple[Conductor | None, str, float]] = field(default_factory=dict)

    def way(self, terminal: str) -> list[tuple[str, Conductor | None, float]]:
        """(terminal, what it came by, volts) from the pole outwards."""
        found = []
        while terminal in self.came:
            wire, nearer, volts = self.came[terminal]
            found.append((terminal, wire, volts))
            terminal = nearer
        return found[::-1]

    def between(self, start: str, end: str) -> list[tuple[Conductor, float]]:
        """The conductors from one terminal to another of the same tree, each with what it loses that way."""
        here, there = self.way(start), self.way(end)
        shared = sum(1 for a, b in zip(here, there, strict=False) if a == b)
        back = [(wire, -volts) for _, wire, volts in reversed(here[shared:])]
        return [one for one in (*back, *((wire, volts) for _, wire, volts in there[shared:])) if one[0] is not None]


class Ways:
    """Those of one solved state. wires: conductors by id; ohms: [V] that each loses for an ampere; where nothing could be
    solved, what an ampere would lose."""

    def __init__(self, operation: Operation, wires: Mapping[str, Conductor], ohms: Mapping[str, float],
                 sources: Sequence[Poles]):
        self.sources = sources
        self._near: dict[str, list[tuple[str, Conductor | None, float]]] = {}
        for branch in operation.network.branches:
            wire = wires.get(branch.name)
            amps = operation.flow.amps.get(branch.name, 0.0) if operation.flow else 1.0
            volts = ohms[branch.name] * amps if wire else 0.0
            self._near.setdefault(branch.a, []).append((branch.b, wire, volts))
            self._near.setdefault(branch.b, []).append((branch.a, wire, -volts))
        self._there = self._grow(_each(poles.plus for poles in sources))
        self._back = self._trees([pole for poles in sources for pole in (poles.minus, poles.line) if pole])

    def lost(self, plus: str, minus: str) -> tuple[tuple[Conductor, float], ...] | None:
        """The conductors of the way there and of the way back to the same source, each with what it loses [V]; None where
        there is no such way."""
        if plus not in self._there.source:
            return None
        poles, tree = self.sources[self._there.source[plus]], self._back.source
        end = next((pole for pole in (poles.minus, poles.line) if minus in tree and tree[minus] == tree.get(pole)), "")
        if not end:
            return None
        there = [(wire, volts) for _, wire, volts in self._there.way(plus) if wire is not None]
        return (*there, *((wire, -volts) for wire, volts in self._back.between(end, minus)))

    def _trees(self, poles: list[str]) -> Forest:
        """One tree for all that hangs together: from the first source's pole, the others somewhere in it."""
        found = Forest({}, {})
        for number, pole in enumerate(poles):
            if pole not in found.volts:
                self._grow({pole: number}, found)
        return found

    def _grow(self, starts: dict[str, int], found: Forest | None = None) -> Forest:
        """Breadth first from the poles, to what is not reached yet."""
        found = found or Forest({}, {})
        found.volts.update(dict.fromkeys(starts, 0.0))
        found.source.update(starts)
        queue = deque(starts)
        while queue:
            here = queue.popleft()
            lost, source = found.volts[here], found.source[here]
            for other, wire, volts in self._near.get(here, ()):
                if other not in found.volts:
                    found.volts[other], found.source[other] = lost + volts, source
                    found.came[other] = (wire, here, volts)
                    queue.append(other)
        return found


def _each(poles: Iterable[str]) -> dict[str, int]:
    """The number of the first source at each pole."""
    found: dict[str, int] = {}
    for number, pole in enumerate(poles):
        found.setdefault(pole, number)
    return found
