"""Nodes to which one conductor leads and on which one part stands: the conductor's resistance is then the part's."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from diagrammer.electrics.wiring import Wiring


class Leaves:
    """moved: {leaf: (its neighbour, the resistance [Ω] between)}, in the order in which they were found.

    `kept`: nodes that stay. `ends`: the pairs of nodes between which the parts stand. A conductor to no part carries
    nothing and goes too.
    """

    def __init__(self, wiring: Wiring, kept: set[int], ends: Iterable[tuple[int, int]]):
        near = wiring.near
        standing, degree = [0] * wiring.count, [len(ways) for ways in near]
        for i, j in ends:
            standing[i] += 1
            standing[j] += 1
        self.moved: dict[int, tuple[int, float]] = {}
        waiting = [node for node in range(wiring.count) if degree[node] == 1]
        for node in waiting:  # grows while it is walked
            if degree[node] != 1 or standing[node] > 1 or node in kept:
                continue
            other = next(m for m in near[node] if m not in self.moved)
            self.moved[node] = other, 1 / near[node][other]
            degree[other] -= 1
            standing[other] += standing[node]
            if degree[other] == 1:
                waiting.append(other)

    def root(self, node: int) -> tuple[int, float]:
        """The node that stands for this one, and the resistance [Ω] to it."""
        ohms = 0.0
        while node in self.moved:
            node, more = self.moved[node]
            ohms += more
        return node, ohms

    def roots(self) -> dict[int, tuple[int, float]]:
        """{leaf: the node that stands for it, and the resistance [Ω] to it}."""
        found: dict[int, tuple[int, float]] = {}
        for node, (other, ohms) in reversed(self.moved.items()):
            root, more = found.get(other, (other, 0.0))
            found[node] = root, ohms + more
        return found

    def between(self, a: int, b: int) -> float:
        """Resistance [Ω] between two nodes that hang on the same one."""
        ways, far = {a: 0.0}, 0.0
        while a in self.moved:
            a, ohms = self.moved[a]
            far += ohms
            ways[a] = far
        back = 0.0
        while b not in ways:
            b, ohms = self.moved[b]
            back += ohms
        return ways[b] + back

    def spread(self, volts: list[float], injected: Sequence[float]) -> None:
        """Fill in the voltages [V] of the leaves, from what parts give at each node [A]."""
        flows = list(injected)
        for node, (other, _) in self.moved.items():
            flows[other] += flows[node]
        for node, (other, ohms) in reversed(self.moved.items()):
            volts[node] = volts[other] + ohms * flows[node]
