"""Seventh phase: returns drawn in full on the finished sheet: those at fault, or all where asked.

Before: sheets whose returns are tags. After: a tag that could be routed is a line from its place to
where it lands, by right angles, through no symbol and no words, on no other line; what found no
way is still a tag.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from diagrammer.layout.p4_blocks.block import Extent
from diagrammer.layout.p7_grid import Grid
from diagrammer.layout.p7_landing import landing, WAYS
from diagrammer.layout.p7_search import route
from diagrammer.layout.scene import Box, Line, Point, Sheet, Stub

OUT = 1.6  # [mm] straight out of a terminal before the first bend


def drawn(
    sheet: Sheet, stub: Stub, make: Callable[[tuple[Point, ...], tuple[Point, ...]], Line], area: Box,
    taken: list[Extent],
) -> Sheet | None:
    """The sheet with a tag turned into a line to where it lands; None where no way was found."""
    goals = landing(sheet, stub.node)
    if not goals:
        return None
    dx, dy = WAYS[stub.side]
    start = (round(stub.at[0] + dx * OUT, 3), round(stub.at[1] + dy * OUT, 3))
    rounded = [(round(x, 3), round(y, 3), dot) for x, y, dot, _ in goals]
    found = route(Grid(sheet, area, taken, start, rounded, stub), start, rounded)
    if found is None:
        return None
    end = found[-1]
    foot, dot = next((foot, dot) for x, y, dot, foot in goals if abs(x - end[0]) < 0.01 and abs(y - end[1]) < 0.01)
    points = _straight(_square([stub.at, *found, foot]))
    line = make(tuple(points), (foot,) if dot else ())
    if _overlaid(sheet, line):
        return None
    return replace(sheet, lines=(*sheet.lines, line), stubs=tuple(s for s in sheet.stubs if s.id != stub.id))


def _overlaid(sheet: Sheet, line: Line) -> bool:
    """Whether a line runs on top of another somewhere."""
    pieces = [piece for other in sheet.lines for piece in zip(other.points, other.points[1:])]
    return any(_share(mine, piece) for mine in zip(line.points, line.points[1:]) for piece in pieces)


def _share(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two level or two upright pieces lie on each other for a stretch."""
    for along, across in ((0, 1), (1, 0)):
        level = one[0][across]
        if all(abs(point[across] - level) < 0.05 for point in (*one, *other)):
            ends = sorted(p[along] for p in one), sorted(p[along] for p in other)
            return min(ends[0][1], ends[1][1]) - max(ends[0][0], ends[1][0]) > 0.05
    return False


def _square(points: list[Point]) -> list[Point]:
    """Rounding of the grid taken out again: pieces exactly level or upright."""
    made = [points[0]]
    for x, y in points[1:]:
        before = made[-1]
        made.append((before[0] if abs(x - before[0]) < 0.01 else x, before[1] if abs(y - before[1]) < 0.01 else y))
    return made


def _straight(points: list[Point]) -> list[Point]:
    kept = [points[0]]
    for point, after in zip(points[1:], [*points[2:], None]):
        if abs(point[0] - kept[-1][0]) < 1e-6 and abs(point[1] - kept[-1][1]) < 1e-6:
            continue
        if after and any(abs(kept[-1][k] - point[k]) < 1e-6 and abs(point[k] - after[k]) < 1e-6 for k in (0, 1)):
            continue
        kept.append(point)
    return kept
