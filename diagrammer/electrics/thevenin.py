"""What a network looks like from many pairs of its nodes at once: open voltage and resistance."""

from __future__ import annotations

import math
from collections.abc import Sequence

from diagrammer.electrics.elimination import Factor, Pattern
from diagrammer.electrics.nodal import Groups
from diagrammer.electrics.network import Network
from diagrammer.frozen import frozen


@frozen
class Seen:
    """A pair of nodes: `volts` [V] between them with nothing drawn, `ohms` [Ω] looking in; inf where nothing joins them."""

    volts: float
    ohms: float

    @property
    def short_circuit(self) -> float:
        """Prospective short-circuit current [A]."""
        return self.volts / self.ohms if self.ohms > 0 else math.inf


def seen(network: Network, pairs: Sequence[tuple[str, str]]) -> tuple[Seen, ...]:
    """The network's branches and sources (loads and current-limited givers left out) from each of `pairs`.

    By the entries of the inverse that lie in the pattern of the factor (Takahashi, Fagan and Chin 1973): near-linear
    on networks that are nearly trees, whatever the number of pairs.
    """
    linear = _Linear(network, pairs)
    return tuple(linear.look(a, b) for a, b in pairs)


class _Linear:
    def __init__(self, network: Network, pairs: Sequence[tuple[str, str]]):
        self.node = _merge(network)
        ends = [(self.node[s.plus], self.node[s.minus]) for s in network.sources]
        wires = [(self.node[b.a], self.node[b.b], 1 / b.ohms) for b in network.branches if b.ohms > 0]
        wires = [(i, j, g) for i, j, g in wires if i != j]
        wires += [(i, j, 1 / s.ohms) for (i, j), s in zip(ends, network.sources, strict=True)]
        count = max(self.node.values(), default=-1) + 1
        self.groups = Groups(count)
        for i, j, _ in wires:
            self.groups.join(i, j)
        grounded = {self.groups.find(i) for i in range(count)}
        self.unknown = [-1] * count
        for place, node in enumerate(node for node in range(count) if node not in grounded):
            self.unknown[node] = place
        known = [(self.node[a], self.node[b]) for a, b in pairs if a in self.node and b in self.node]
        entries = [(self.unknown[i], self.unknown[j]) for i, j, *_ in (*wires, *known)]
        pattern = Pattern(count - len(grounded), [(i, j) for i, j in entries if i >= 0 and j >= 0])
        self.factor = pattern.factor(self._stamps(wires))
        self.inverse = _inverse(self.factor)
        self.volts = self.factor.solve(self._right(ends, network))

    def _stamps(self, wires):
        for i, j, g in wires:
            i, j = self.unknown[i], self.unknown[j]
            if i != j:
                yield (i, j, g) if i >= 0 else (j, -1, g)

    def _right(self, ends, network: Network) -> list[float]:
        right = [0.0] * (len(self.factor.pivots) + 1)
        for (i, j), source in zip(ends, network.sources, strict=True):
            right[self.unknown[i]] += source.volts / source.ohms
            right[self.unknown[j]] -= source.volts / source.ohms
        return right[:-1]

    def look(self, a: str, b: str) -> Seen:
        i, j = self.node.get(a), self.node.get(b)
        if i is None or j is None or self.groups.find(i) != self.groups.find(j):
            return Seen(0.0, math.inf)
        i, j = self.unknown[i], self.unknown[j]
        volts = (self.volts[i] if i >= 0 else 0.0) - (self.volts[j] if j >= 0 else 0.0)
        ohms = self._entry(i, i) + self._entry(j, j) - 2 * self._entry(i, j)
        return Seen(volts, max(0.0, ohms))

    def _entry(self, i: int, j: int) -> float:
        if i < 0 or j < 0:
            return 0.0
        p, q = sorted((self.factor.pattern.place[i], self.factor.pattern.place[j]))
        return self.inverse[p][q]


def _merge(network: Network) -> dict[str, int]:
    """Node numbers, joints contracted."""
    names: dict[str, int] = {}
    for part in (*network.branches, *network.sources):
        for name in (part.a, part.b) if hasattr(part, "a") else (part.plus, part.minus):
            names.setdefault(name, len(names))
    groups = Groups(len(names))
    for branch in network.branches:
        if branch.ohms == 0:
            groups.join(names[branch.a], names[branch.b])
    numbers: dict[int, int] = {}
    return {name: numbers.setdefault(groups.find(i), len(numbers)) for name, i in names.items()}


def _inverse(factor: Factor) -> list[dict[int, float]]:
    """Row by place: the inverse's entries at the diagonal and where the factor has entries."""
    rows: list[dict[int, float]] = [{} for _ in factor.pivots]
    for place in range(len(rows) - 1, -1, -1):
        parts = factor.multipliers[place]
        row = {}
        for q, _ in parts:
            row[q] = -sum(part * rows[min(k, q)][max(k, q)] for k, part in parts)
        row[place] = 1 / factor.pivots[place] - sum(part * row[q] for q, part in parts)
        rows[place] = row
    return rows
