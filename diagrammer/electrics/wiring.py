"""The branches of a network by numbers, made once for the many states that have the same.

Joints are contracted; of nodes on which no part stands those with one or two neighbours are eliminated, as in Gaussian
elimination: dead ends, and the middle of chains. What is left is no larger than the parts and the bars between them.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

from diagrammer.electrics.groups import Groups
from diagrammer.electrics.joints import Joints
from diagrammer.electrics.network import Branch, Network


class Wiring:
    """`ends`: names of the nodes on which a part may stand.

    node: {name: number}; numbers below `count` are those left, ends among them. near: of each of these {neighbour:
    conductance [S]}. joined: the groups that hang together by branches. bare: the ends to which no branch leads.
    """

    def __init__(self, branches: Sequence[Branch], ends: Iterable[str]):
        self.branches = branches
        self.index: dict[str, int] = {}
        for branch in branches:
            self.index.setdefault(branch.a, len(self.index))
            self.index.setdefault(branch.b, len(self.index))
        self.ends = frozenset(ends)
        self.bare = self.ends - self.index.keys()
        for name in sorted(self.bare):
            self.index[name] = len(self.index)
        nodes, total = self._contracted()
        near = self._near(nodes, total)
        kept = {nodes[self.index[name]] for name in self.ends}
        self._eliminated = _eliminate(near, kept)
        self._number(nodes, near)

    def _contracted(self) -> tuple[list[int], int]:
        """The node of each name, joints contracted, and how many there are."""
        groups = Groups(len(self.index))
        for branch in self.branches:
            if branch.ohms == 0:
                groups.join(self.index[branch.a], self.index[branch.b])
        numbers: dict[int, int] = {}
        nodes = [numbers.setdefault(groups.find(i), len(numbers)) for i in range(len(self.index))]
        return nodes, len(numbers)

    def _near(self, nodes: list[int], total: int) -> list[dict[int, float]]:
        near: list[dict[int, float]] = [{} for _ in range(total)]
        for branch in self.branches:
            if branch.ohms > 0:
                _link(near, nodes[self.index[branch.a]], nodes[self.index[branch.b]], 1 / branch.ohms)
        return near

    def _number(self, nodes: list[int], near: list[dict[int, float]]) -> None:
        """Number the nodes that are left first, the eliminated after them in the order in which they went."""
        gone = {node for node, _ in self._eliminated}
        left = [node for node in range(len(near)) if node not in gone]
        number = [0] * len(near)
        for place, node in enumerate((*left, *(node for node, _ in self._eliminated))):
            number[node] = place
        self.count = len(left)
        self.near = [{number[m]: g for m, g in near[node].items()} for node in left]
        self._eliminated = [[(number[m], share) for m, share in ways] for _, ways in self._eliminated]
        self.places = [number[node] for node in nodes]
        self.node = dict(zip(self.index, self.places))
        self.joined = Groups(self.count)
        for i, ways in enumerate(self.near):
            for j in ways:
                self.joined.join(i, j)

    def everywhere(self, volts: Sequence[float]) -> list[float]:
        """The voltage [V] of every node, by its number, from those of the nodes that are left."""
        found = [*volts, *(0.0,) * len(self._eliminated)]
        for back, ways in enumerate(reversed(self._eliminated), 1):
            if len(ways) == 2:
                (i, _), (j, share) = ways
                found[-back] = found[i] + share * (found[j] - found[i])
            elif ways:
                found[-back] = found[ways[0][0]]
        return found

    @cached_property
    def resistive(self) -> list[tuple[str, int, int, float, int, int]]:
        """(name, node, node, ohms, index, index) of every branch that is no joint."""
        return [(b.name, self.node[b.a], self.node[b.b], b.ohms, self.index[b.a], self.index[b.b])
                for b in self.branches if b.ohms > 0]

    @cached_property
    def bolted(self) -> tuple[str, ...]:
        """The names of the joints."""
        return tuple(branch.name for branch in self.branches if branch.ohms == 0)

    @cached_property
    def joints(self) -> Joints:
        """The joints between the places of the names."""
        return Joints(len(self.index), [(self.index[b.a], self.index[b.b]) for b in self.branches if b.ohms == 0])


def wiring_of(network: Network) -> Wiring:
    """The wiring of one network by itself."""
    return Wiring(network.branches, network.ends)


def _link(near: list[dict[int, float]], i: int, j: int, conductance: float) -> None:
    if i != j:
        near[i][j] = near[i].get(j, 0.0) + conductance
        near[j][i] = near[j].get(i, 0.0) + conductance


def _eliminate(near: list[dict[int, float]], kept: set[int]) -> list[tuple[int, list[tuple[int, float]]]]:
    """Take out of `near` what has at most two neighbours and is not `kept`: each with its neighbours, and the share of
    its voltage that is each one's."""
    found = []
    waiting = [node for node in range(len(near) - 1, -1, -1) if len(near[node]) <= 2 and node not in kept]
    gone = [False] * len(near)
    while waiting:
        node = waiting.pop()
        if gone[node] or len(near[node]) > 2:
            continue
        gone[node] = True
        ways = near[node]
        whole = sum(ways.values())
        found.append((node, [(m, g / whole) for m, g in ways.items()]))
        for m in ways:
            del near[m][node]
        if len(ways) == 2:
            (i, g), (j, h) = ways.items()
            _link(near, i, j, g * h / whole)
        waiting += (m for m in ways if len(near[m]) <= 2 and m not in kept)
    return found
