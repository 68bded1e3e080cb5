"""Where a report comes from: the source, the device that lets too much through, the way from there."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterable
from itertools import groupby

from diagrammer.circuit.protection_judge import Report
from diagrammer.circuit.protection_solve import Solved
from diagrammer.circuit.protection_web import Piece, Web
from diagrammer.circuit.view import View
from diagrammer.electrics.rounding import above
from diagrammer.frozen import frozen

Came = dict[str, tuple[Piece, str] | None]  # point: the piece towards the report, and the point it leads to


@frozen
class Cause:
    """devices: those that let the current through, the largest first; sources: what gives it;
    path: node names from the first source to the far end of the conductor."""

    devices: tuple[str, ...]
    sources: tuple[str, ...]
    path: tuple[str, ...]


def cause(view: View, web: Web, solved: Solved, report: Report) -> Cause:
    """Breadth first against the current. O(points + pieces) of what brings some."""
    trace = _Trace(web, solved, report)
    near = trace.spread({report.start: None}, devices=False)
    doors = trace.doors(near) if report.why != "bare" else []
    come = near
    if doors:
        piece, inner = doors[0]
        outer = piece.other(inner)
        come = trace.spread({**_trail(near, inner), outer: (piece, inner)}, start=(outer,))
    givers = [point for point in come if point in web.own and (not doors or point not in near)]
    unlimited = [point for point in givers if web.own[point].bare]
    points = unlimited or givers
    sources = tuple(dict.fromkeys(name for point in points for name in web.givers[point]))
    names = _names(view, web, come, points[0] if points else report.start, report)
    devices = tuple(dict.fromkeys(piece.node for piece, _ in doors))
    return Cause(devices, sources, (*sources[:1], *names) if sources[:1] != names[:1] else names)


@frozen
class _Trace:
    web: Web
    solved: Solved
    report: Report

    def brings(self, piece: Piece, start: str) -> bool:
        """Whether current enters a piece at `start`; true as well where that was not worked out."""
        flow = self.solved.flows.get((piece.key, start))
        return piece is not self.report.piece and not piece.blocks(start) and (flow is None or not flow.none)

    def plain(self, piece: Piece, start: str) -> bool:
        """Neither a device, nor a conductor that is reported itself and so counts no further."""
        held = self.report.why in ("rating", "sum", "limited") and (piece.key, start) in self.solved.held
        return piece.form != "overcurrent" and not held

    def spread(self, come: Came, devices: bool = True, start: Iterable[str] = ()) -> Came:
        """The points from which current comes, through devices or not, each with the way on."""
        come = dict(come)
        queue = deque(start or come)
        while queue:
            point = queue.popleft()
            for piece in self.web.at[point]:
                other = piece.other(point)
                if other not in come and (devices or self.plain(piece, other)) and self.brings(piece, other):
                    come[other] = (piece, point)
                    queue.append(other)
        return come

    def doors(self, near: Came) -> list[tuple[Piece, str]]:
        """The devices through which current comes, the largest first; of one that lets through less
        than its rating the nearest."""
        flow = self.report.flow
        found = [(piece, point) for point in near for piece in self.web.at[point]
                 if piece.rating is not None and self.brings(piece, piece.other(point))]
        if any((piece.key, piece.other(point)) not in self.solved.flows for piece, point in found):
            fed = _fed(self.web, near)
            found = [(piece, point) for piece, point in found if piece.other(point) in fed]
        if self.report.why == "rating":
            large = [door for door in found if not above(flow.largest, door[0].rating)]
            exact = [door for door in large if not above(door[0].rating, flow.largest)]
            return (exact or large)[:1]
        if self.report.why == "asked" and flow.held == math.inf:
            return []  # the load's current comes through none, whatever else comes through one
        return sorted(found, key=lambda door: -door[0].rating)


def _trail(come: Came, point: str) -> Came:
    found: Came = {point: come[point]}
    while (step := come[point]) is not None:
        point = step[1]
        found[point] = come[point]
    return found


def _fed(web: Web, near: Came) -> set[str]:
    """The points outside of `near` that a source reaches without crossing it."""
    fed = {point for point in web.own if point not in near}
    queue = deque(fed)
    while queue:
        point = queue.popleft()
        for piece in web.at[point]:
            other = piece.other(point)
            if other not in fed and other not in near and not piece.blocks(point):
                fed.add(other)
                queue.append(other)
    return fed


def _names(view: View, web: Web, come: Came, point: str, report: Report) -> tuple[str, ...]:
    """The nodes met from a point over the conductor reported."""
    names: list[str] = []
    while (step := come.get(point)) is not None:
        piece, onward = step
        names += _ends(view, web, piece, point)
        point = onward
    names += _ends(view, web, report.piece, report.start)
    return tuple(name for name, _ in groupby(names))


def _ends(view: View, web: Web, piece: Piece, start: str) -> list[str]:
    if piece.wire is None:
        return [piece.node]
    ends = (piece.wire.a, piece.wire.b)
    ends = ends if web.points[ends[0]] == start else ends[::-1]
    return [view.system.terminals[end].node for end in ends]
