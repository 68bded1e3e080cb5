"""Where a report comes from: the source, the device that lets too much through, the way from there."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from diagrammer.circuit.protection_flow import ROUNDING
from diagrammer.circuit.protection_judge import Report
from diagrammer.circuit.protection_web import Piece, Web
from diagrammer.circuit.view import View

Came = dict[str, tuple[Piece, str] | None]  # point: the piece towards the report, and the point it leads to


@dataclass(frozen=True)
class Cause:
    """devices: those that let the current through, the largest first; sources: what gives it;
    path: node names from the first source to the far end of the conductor."""

    devices: tuple[str, ...]
    sources: tuple[str, ...]
    path: tuple[str, ...]


def cause(view: View, web: Web, report: Report) -> Cause:
    """Breadth first against the current. O(points + pieces) of what lies between."""
    near = _spread(web, {report.start: None}, report.piece, lambda piece: piece.form != "overcurrent")
    doors = list(_doors(web, near, report)) if report.why != "bare" else []
    come, start = near, report.start
    if doors:
        piece, inner = doors[0]
        outer = piece.other(inner)
        come = _spread(web, {**_trail(near, inner), outer: (piece, inner)}, report.piece, lambda piece: True, (outer,))
    givers = [point for point in come if point in web.own and (not doors or point not in near)]
    unlimited = [point for point in givers if web.own[point].bare]
    points = unlimited or givers
    sources = tuple(dict.fromkeys(name for point in points for name in web.givers[point]))
    names = _names(view, web, come, points[0] if points else start, report)
    devices = tuple(dict.fromkeys(piece.node for piece, _ in doors))
    return Cause(devices, sources, (*sources[:1], *names) if sources[:1] != names[:1] else names)


def _spread(web: Web, come: Came, without: Piece, passes: Callable[[Piece], bool], start: Iterable[str] = ()) -> Came:
    come = dict(come)
    queue = deque(start or come)
    while queue:
        point = queue.popleft()
        for piece in web.at[point]:
            other = piece.other(point)
            if piece is not without and other not in come and passes(piece) and not piece.blocks(other):
                come[other] = (piece, point)
                queue.append(other)
    return come


def _trail(come: Came, point: str) -> Came:
    found: Came = {point: come[point]}
    while (step := come[point]) is not None:
        point = step[1]
        found[point] = come[point]
    return found


def _doors(web: Web, near: Came, report: Report) -> Iterator[tuple[Piece, str]]:
    """The devices on the edge of what reaches the conductor behind which a source stands, the
    largest first; of one that lets through less than its rating the nearest."""
    fed = _fed(web, near)
    found = [(piece, point) for point in near for piece in web.at[point]
             if piece.form == "overcurrent" and piece.rating is not None and piece.other(point) in fed]
    if report.why == "rating":
        large = [door for door in found if door[0].rating >= report.flow.largest * (1 - ROUNDING)]
        exact = [door for door in large if door[0].rating <= report.flow.largest * (1 + ROUNDING)]
        yield from (exact or large)[:1]
    elif report.flow.devices or report.why == "asked" and report.flow.held < math.inf:
        yield from sorted(found, key=lambda door: -door[0].rating)


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
    return tuple(name for i, name in enumerate(names) if not i or names[i - 1] != name)


def _ends(view: View, web: Web, piece: Piece, start: str) -> list[str]:
    if piece.wire is None:
        return [piece.node]
    ends = (piece.wire.a, piece.wire.b)
    ends = ends if web.points[ends[0]] == start else ends[::-1]
    return [view.system.terminals[end].node for end in ends]
