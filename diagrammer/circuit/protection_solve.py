"""The values of every conductor of a web, by two passes over its bridge tree. O(points + pieces),
and a maximum flow where a block has more than one way round."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from itertools import accumulate

from diagrammer.circuit.protection_flow import NOTHING, Flow, together
from diagrammer.circuit.protection_judge import Judge, Report
from diagrammer.circuit.protection_mesh import Mesh
from diagrammer.circuit.protection_tree import Link, Tree, tree
from diagrammer.frozen import frozen


@frozen(eq=False)
class Solved:
    """reports: every conductor end into which too much can flow, causes only. flows: what can flow
    in, by edge key and point."""

    reports: tuple[Report, ...]
    flows: Mapping[tuple[str, str], Flow]

    @cached_property
    def held(self) -> frozenset[tuple[str, str]]:
        """The conductors reported, by edge key and the point at which too much flows in."""
        return frozenset((report.piece.key, report.start) for report in self.reports)


def solve(judge: Judge) -> Solved:
    """What can flow into every conductor of a web from each of its ends."""
    passes = _Passes(judge, tree(judge.web))
    passes.run()
    return Solved(tuple(passes.found), passes.flows)


class _Passes:
    def __init__(self, judge: Judge, shape: Tree):
        self.judge, self.tree = judge, shape
        self.coming: dict[tuple[str, str], Flow] = {}  # (edge key, point it arrives at)
        self.found: list[Report] = []
        self.flows: dict[tuple[str, str], Flow] = {}
        web = judge.web
        self.asks, self.behind = self._sums(web.asks)
        self.sources, self.beyond = self._sums({point: flow.bare for point, flow in web.own.items()})

    def run(self) -> None:
        for block in reversed(self.tree.order):
            if (up := self.tree.parent[block]) is not None:
                self._send(up, self._up(block, up), block, upward=True)
        for block in self.tree.order:
            self._down(block)

    def _sums(self, values: Mapping[str, float]) -> tuple[list[float], list[float]]:
        """Of values by point, the sum over each block's whole tree, and over its subtree: what loads take [A], how many
        sources without limit stand there."""
        below = [sum(values.get(point, 0.0) for point in points) for points in self.tree.points]
        for block in reversed(self.tree.order):
            if (up := self.tree.parent[block]) is not None:
                below[up.block] += below[block]
        whole = list(below)
        for block in self.tree.order:
            if (up := self.tree.parent[block]) is not None:
                whole[block] = whole[up.block]
        return whole, below

    def _send(self, link: Link, flow: Flow, lower: int, upward: bool) -> None:
        """Over a bridge from `near` to `far`; `lower` is the block at its lower end."""
        piece, start = link.piece, link.near
        self.flows[piece.key, start] = flow
        report = self.judge.report(piece, start, flow)
        if report is not None:
            self.found.append(report)
        self.coming[piece.key, link.far] = self.judge.onward(piece, start, flow, report, self._asked(lower, upward))

    def _asked(self, lower: int, upward: bool) -> float:
        """[A] what the loads behind a bridge have to get over it: nothing that a source of their own can give."""
        sources, loads = self.beyond[lower], self.behind[lower]
        if upward:
            sources, loads = self.sources[lower] - sources, self.asks[lower] - loads
        return 0.0 if sources else loads

    def _inflows(self, block: int) -> list[tuple[str, Flow]]:
        own = self.judge.web.own
        flows = [(point, own[point]) for point in self.tree.points[block] if point in own]
        return flows + [(link.near, self._from(link)) for link in self.tree.links[block]]

    def _from(self, link: Link) -> Flow:
        return self.coming.get((link.piece.key, link.near), NOTHING)

    def _up(self, block: int, up: Link) -> Flow:
        """What leaves towards the parent, which has sent nothing yet."""
        flows = self._inflows(block)
        if not self.tree.meshed(block):
            return together(flow for _, flow in flows)
        return self._mesh(block, flows).flow(up.near)

    def _mesh(self, block: int, flows: list[tuple[str, Flow]]) -> Mesh:
        return Mesh(self.judge, self.tree.points[block], self.tree.inner[block], flows)

    def _down(self, block: int) -> None:
        """What leaves towards each child, from everywhere else."""
        children = tuple(self.tree.children(block))
        if self.tree.meshed(block):
            self._down_mesh(block, children)
            return
        flows = [flow for _, flow in self._inflows(block)]
        others = len(flows) - len(self.tree.links[block])
        before = list(accumulate(flows, initial=NOTHING))
        after = list(accumulate(reversed(flows), initial=NOTHING))[::-1]
        at = {link.piece.key: others + number for number, link in enumerate(self.tree.links[block])}
        for child in children:
            number = at[child.piece.key]
            self._send(child, before[number] + after[number + 1], child.block, upward=False)

    def _down_mesh(self, block: int, children: tuple[Link, ...]) -> None:
        flows = self._inflows(block)
        full = self._mesh(block, flows)
        self.found += full.reports
        self.flows.update(full.flows)
        for child in children:
            mesh = full
            if not self._from(child).none:
                mesh = self._mesh(block, self._without(block, child))
            self._send(child, mesh.flow(child.near), child.block, upward=False)

    def _without(self, block: int, child: Link) -> list[tuple[str, Flow]]:
        kept = self._inflows(block)
        kept.remove((child.near, self._from(child)))
        return kept
