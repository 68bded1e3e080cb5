"""What stands on either side of a conductor or device of the feed side, or of a line of ac.

An edge whose loss would part nothing has the same on both sides: everything.
"""

from __future__ import annotations

from functools import cached_property
from operator import add, sub

from diagrammer.circuit import cuts
from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.protection_web import feeds
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import UNLIMITED
from diagrammer.netlist.model import Node

TAKERS = {"solar charger": "pv", "dc charger": "pv", "pv inverter": "pv", "wind charger": "in"}
# ports that take what pv, wind or hydro give


@frozen
class Side:
    """short_circuit [A]: of the batteries there, together. unlimited: sources without limit, batteries too; main: those
    but starter batteries and alternators.
    limited: sources that limit themselves. raw [A]: what pv, wind and hydro give. takers: chargers made for those."""

    short_circuit: float = 0.0
    unlimited: int = 0
    limited: int = 0
    raw: float = 0.0
    takers: int = 0
    main: int = 0

    def __add__(self, other: Side) -> Side:
        return self if other is NOTHING else Side(*map(add, self._all, other._all))

    def __sub__(self, other: Side) -> Side:
        return self if other is NOTHING else Side(*map(sub, self._all, other._all))

    @property
    def _all(self) -> tuple:
        return self.short_circuit, self.unlimited, self.limited, self.raw, self.takers, self.main

    @property
    def gives(self) -> bool:
        return bool(self.unlimited or self.limited or self.raw > 1e-9)


NOTHING = Side()


def _of_engine(node: Node) -> bool:
    return node.kind.name == "alternator" or node.get("duty") == "starter"


class Sides:
    """Both sides of every edge. O(V + E)."""

    def __init__(self, view: View):
        self.view = view

    def of(self, key: str) -> tuple[Side, Side]:
        """What stands at the a end and beyond, and at the b end and beyond; nothing where the edge is not of
        the feed side."""
        return self._all.get(key, (NOTHING, NOTHING))

    def parts(self, key: str) -> bool:
        """Whether the loss of this edge would part its two sides."""
        return key in self._all and key not in self._meshed

    @cached_property
    def _web(self):
        joins = feeds(self.view)
        return cuts.web(self.view.graph, lambda key, data: joins(data))

    @cached_property
    def _own(self) -> dict[str, Side]:
        found: dict[str, Side] = {}
        stores = batteries(self.view.system)
        for name, give in self.view.gives:
            unlimited = give.amps == UNLIMITED
            raw = give.amps if give.role == "raw" else 0.0
            one = Side(stores[name].short_circuit if name in stores else 0.0, int(unlimited),
                       int(bool(give.amps) and not unlimited and not raw), raw,
                       main=int(unlimited and not _of_engine(self.view.system.nodes[name])))
            for terminal in self.view.hot(name, give.port):
                found[terminal] = found.get(terminal, NOTHING) + one
        for name, node in self.view.system.nodes.items():
            for terminal in self.view.hot(name, TAKERS.get(node.kind.name, "")):
                found[terminal] = found.get(terminal, NOTHING) + Side(takers=1)
        return found

    @cached_property
    def _meshed(self) -> frozenset[str]:
        parting = set(cuts.bridges(self._web))
        return frozenset(key for key in self._all if key not in parting)

    @cached_property
    def _all(self) -> dict[str, tuple[Side, Side]]:
        """On the tree that is left when each block without bridges counts as one point."""
        parting = cuts.bridges(self._web)
        block = cuts.islands(self._web, parting)
        own = [NOTHING] * len(set(block.values()))
        for terminal, side in self._own.items():
            if terminal in block:
                own[block[terminal]] = own[block[terminal]] + side
        ends = {key: tuple(block[end] for end in self.view.ends(key)) for key in parting}
        below, root = _below(own, ends)
        total = {tree: below[tree] for tree in set(root)}
        found = {}
        for here in self._web.values():
            for _, key in here:
                if key not in found:
                    found[key] = self._both(key, ends.get(key), block, below, total, root)
        return found

    def _both(self, key, pair, block, below, total, root) -> tuple[Side, Side]:
        if pair is None:
            end, _ = self.view.ends(key)  # in the same block as the other one
            everything = total[root[block[end]]]
            return everything, everything
        a, b = pair
        everything = total[root[a]]
        child = below.get((a, b))
        if child is not None:  # b hangs below a
            return everything - child, child
        child = below[b, a]
        return child, everything - child


def _below(own: list[Side], ends: dict[str, tuple[int, int]]):
    """Sums over the trees of blocks: {root: sum of its tree, (parent, child): sum below the child}, and the root
    of each block."""
    near: list[list[int]] = [[] for _ in own]
    for a, b in ends.values():
        near[a].append(b)
        near[b].append(a)
    root: list[int | None] = [None] * len(own)
    sums = list(own)
    found: dict = {}
    for start in range(len(own)):
        if root[start] is not None:
            continue
        order, parent = [start], {start: None}
        root[start] = start
        for block in order:
            for other in near[block]:
                if other != parent[block]:
                    root[other], parent[other] = start, block
                    order.append(other)
        for block in reversed(order[1:]):
            found[parent[block], block] = sums[block]
            sums[parent[block]] = sums[parent[block]] + sums[block]
        found[start] = sums[start]
    return found, root
