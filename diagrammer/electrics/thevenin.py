"""What a network looks like from many pairs of its nodes at once: open voltage and resistance."""

from __future__ import annotations

import math
from collections.abc import Sequence

from diagrammer.electrics.elimination import Factor, Pattern
from diagrammer.electrics.leaves import Leaves
from diagrammer.electrics.network import Network
from diagrammer.electrics.wiring import Wiring
from diagrammer.frozen import frozen


@frozen(slots=True)
class Seen:
    """A pair of nodes: `volts` [V] between them with nothing drawn, `ohms` [Ω] looking in; inf where nothing joins them."""

    volts: float
    ohms: float

    @property
    def short_circuit(self) -> float:
        """Prospective short-circuit current [A]."""
        return self.volts / self.ohms if self.ohms > 0 else math.inf


def seen(network: Network, pairs: Sequence[tuple[str, str]], wiring: Wiring | None = None) -> tuple[Seen, ...]:
    """The network's branches and sources (loads and current-limited givers left out) from each of `pairs`.

    By the entries of the inverse that lie in the pattern of the factor (Takahashi, Fagan and Chin 1973): near-linear
    on networks that are nearly trees, whatever the number of pairs.
    `wiring`: that of the same branches, the pairs and the sources' nodes among its ends; made where none is given.
    """
    if wiring is None:
        stands = ((source.plus, source.minus) for source in network.sources)
        wiring = Wiring(network.branches, (name for pair in (*stands, *pairs) for name in pair))
    linear = _Linear(network, wiring, pairs)
    return tuple(linear.look(a, b) for a, b in pairs)


class _Linear:
    """Dead ends, which carry nothing, are taken off; what they hang on is solved."""

    def __init__(self, network: Network, wiring: Wiring, pairs: Sequence[tuple[str, str]]):
        self.node = wiring.node
        ends = [(self.node[s.plus], self.node[s.minus]) for s in network.sources]
        self.leaves = Leaves(wiring, {node for pair in ends for node in pair}, ())
        self.roots = self.leaves.roots()
        moved = self.leaves.moved
        wires = [(i, j, g) for i, ways in enumerate(wiring.near) if i not in moved for j, g in ways.items()
                 if i < j and j not in moved]
        wires += [(i, j, 1 / s.ohms) for (i, j), s in zip(ends, network.sources, strict=True)]
        self.groups = wiring.joined.copy()
        for i, j in ends:
            self.groups.join(i, j)
        grounded = {self.roots.get(node, (node, 0.0))[0] for node in map(self.groups.find, range(wiring.count))}
        self.unknown = [-1] * wiring.count
        free = (node for node in range(wiring.count) if node not in grounded and node not in moved)
        for place, node in enumerate(free):
            self.unknown[node] = place
        known = [(self._root(a)[0], self._root(b)[0]) for a, b in pairs]
        entries = {(self.unknown[i], self.unknown[j]) for i, j, *_ in (*wires, *known)}
        size = wiring.count - len(grounded) - len(moved)
        self.factor = Pattern(size, sorted((i, j) for i, j in entries if i >= 0 and j >= 0)).factor(self._stamps(wires))
        self.inverse = _inverse(self.factor)
        self.volts = self.factor.solve(self._right(ends, network))

    def _root(self, name: str) -> tuple[int, float]:
        """What a node hangs on, and the resistance [Ω] to it."""
        node = self.node[name]
        return self.roots.get(node, (node, 0.0))

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
        if self.groups.find(self.node[a]) != self.groups.find(self.node[b]):
            return Seen(0.0, math.inf)
        (i, ahead), (j, behind) = self._root(a), self._root(b)
        if i == j:
            return Seen(0.0, self.leaves.between(self.node[a], self.node[b]))
        i, j = self.unknown[i], self.unknown[j]
        volts = (self.volts[i] if i >= 0 else 0.0) - (self.volts[j] if j >= 0 else 0.0)
        ohms = self._entry(i, i) + self._entry(j, j) - 2 * self._entry(i, j)
        return Seen(volts, max(0.0, ohms) + ahead + behind)

    def _entry(self, i: int, j: int) -> float:
        if i < 0 or j < 0:
            return 0.0
        p, q = sorted((self.factor.pattern.place[i], self.factor.pattern.place[j]))
        return self.inverse[p][q]


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
