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
    sheet: Sheet, stub: Stub, make: Callable[[tuple[Point, ...], tuple[Point, ...]], Line], area: Box, taken: list[Extent],
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
    for (a, b), (c, d) in zip(line.points, line.points[1:]):
        for other in sheet.lines:
            for (e, f), (g, h) in zip(other.points, other.points[1:]):
                if abs(b - d) + abs(f - h) + abs(b - f) < 0.1 and min(max(a, c), max(e, g)) - max(min(a, c), min(e, g)) > 0.05:
                    return True
                if abs(a - c) + abs(e - g) + abs(a - e) < 0.1 and min(max(b, d), max(f, h)) - max(min(b, d), min(f, h)) > 0.05:
                    return True
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
