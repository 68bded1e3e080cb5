"""Seventh phase: returns drawn in full on the finished sheet: those at fault, or all where asked.

Before: sheets whose returns are tags. After: a tag that could be routed is a line from its place to
where it lands, by right angles, through no symbol and no words, on no other line; what found no
way is still a tag.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left, bisect_right
from collections.abc import Callable
from dataclasses import replace

from diagrammer.layout.p4_blocks.block import Extent, boxes_of
from diagrammer.layout.p4_blocks.fit import at
from diagrammer.layout.scene import Bar, Box, Line, Point, Shape, Sheet, Stub
from diagrammer.layout.tags import tag

STEP = 2.0  # [mm] of the grid
BEND, CROSSING = 10.0, 14.0  # [mm] of detour that one is worth
AWAY = 0.9  # [mm] from anything that is not its own
EFFORT = 60_000  # states looked at before a route is given up
Goal = tuple[float, float, bool]  # x, y, and whether the way ends there across a line (a dot)


class Grid:
    """Grid lines of a sheet, with the pieces that are closed and the lines that cross them."""

    def __init__(self, sheet: Sheet, area: Box, taken: list[Extent], start: Point, goals: list[Goal], mine: Stub) -> None:
        self.xs = _ruler(area.x, area.x + area.width, [start[0], *(x for x, _, _ in goals)])
        self.ys = _ruler(area.y, area.y + area.height, [start[1], *(y for _, y, _ in goals)])
        self.closed: tuple[set, set] = (set(), set())  # pieces along x, along y
        self.crossed: dict[tuple[int, int, int], int] = {}
        for box in taken:
            self._close(box, 0.5)
        for item in (*sheet.shapes, *sheet.texts):
            if isinstance(item, Shape) or item.role not in ("frame", "title", "findings", "caption", "caution", "legend"):
                self._close(boxes_of(item)[0], 0.6 if isinstance(item, Shape) else 0.3)
        for bar in sheet.bars:
            self._close(boxes_of(bar)[0], 0.3)
        for stub in sheet.stubs:
            if stub.id != mine.id:
                box = tag(stub).box
                self._close((box.x, box.y, box.x + box.width, box.y + box.height), 0.4)
        for line in sheet.lines:
            for a, b in zip(line.points, line.points[1:]):
                self._line(a, b)

    def _close(self, box: Extent, margin: float) -> None:
        """No piece may run inside a box."""
        l, t, r, b = box[0] - margin, box[1] - margin, box[2] + margin, box[3] + margin
        i1, i2 = bisect_left(self.xs, l), bisect_right(self.xs, r)
        j1, j2 = bisect_left(self.ys, t), bisect_right(self.ys, b)
        self.closed[0].update((i, j) for j in range(j1, j2) for i in range(max(0, i1 - 1), i2))
        self.closed[1].update((i, j) for i in range(i1, i2) for j in range(max(0, j1 - 1), j2))

    def _line(self, a: Point, b: Point) -> None:
        """Nothing may run along a line; across it, it is a crossing."""
        (x1, y1), (x2, y2) = sorted((a, b))
        flat = abs(y1 - y2) < 1e-6
        low, high = (x1, x2) if flat else (min(y1, y2), max(y1, y2))
        along, across = (self.xs, self.ys) if flat else (self.ys, self.xs)
        level = y1 if flat else x1
        p1, p2 = max(0, bisect_left(along, low) - 1), bisect_right(along, high)
        for q in range(bisect_left(across, level - AWAY), bisect_right(across, level + AWAY)):
            self.closed[0 if flat else 1].update((p, q) if flat else (q, p) for p in range(p1, p2))
        q = bisect_right(across, level) - 1
        if q < 0:
            return
        for p in range(bisect_left(along, low), bisect_right(along, high)):
            key = (1, p, q) if flat else (0, q, p)
            self.crossed[key] = self.crossed.get(key, 0) + 1

    def ways(self, i: int, j: int):
        """Neighbours: (i, j, direction, length, crossings)."""
        for di, dj, way in ((1, 0, 0), (0, 1, 1), (-1, 0, 0), (0, -1, 1)):
            ni, nj = i + di, j + dj
            if not (0 <= ni < len(self.xs) and 0 <= nj < len(self.ys)):
                continue
            piece = (min(i, ni), min(j, nj))
            if piece in self.closed[way]:
                continue
            length = abs(self.xs[ni] - self.xs[i]) + abs(self.ys[nj] - self.ys[j])
            yield ni, nj, way, length, self.crossed.get((way, *piece), 0)


def _ruler(low: float, high: float, more: list[float]) -> list[float]:
    count = int((high - low) / STEP)
    return sorted({round(low + n * STEP, 3) for n in range(count + 1)} | {round(x, 3) for x in more})


def route(grid: Grid, start: Point, goals: list[Goal]) -> list[Point] | None:
    """The cheapest way from a point to one of the goals, as corners; None where there is none."""
    at_x = {round(x, 3): n for n, x in enumerate(grid.xs)}
    at_y = {round(y, 3): n for n, y in enumerate(grid.ys)}
    origin = at_x[round(start[0], 3)], at_y[round(start[1], 3)]
    wanted = {(at_x[round(x, 3)], at_y[round(y, 3)]) for x, y, _ in goals}
    gx, gy = [x for x, _, _ in goals], [y for _, y, _ in goals]
    low_x, high_x, low_y, high_y = min(gx), max(gx), min(gy), max(gy)

    def left(i: int, j: int) -> float:
        x, y = grid.xs[i], grid.ys[j]
        return max(low_x - x, x - high_x, 0.0) + max(low_y - y, y - high_y, 0.0)

    queue = [(left(*origin), 0.0, *origin, -1)]
    best: dict[tuple[int, int, int], float] = {(*origin, -1): 0.0}
    came: dict[tuple[int, int, int], tuple[int, int, int]] = {}
    tried = 0
    while queue and tried < EFFORT:
        _, cost, i, j, way = heapq.heappop(queue)
        if cost > best[i, j, way] + 1e-9:
            continue
        tried += 1
        if (i, j) in wanted:
            return _corners(grid, came, (i, j, way))
        for ni, nj, onward, length, crossings in grid.ways(i, j):
            price = cost + length + crossings * CROSSING + (BEND if way not in (-1, onward) else 0.0)
            key = (ni, nj, onward)
            if price < best.get(key, 1e18) - 1e-9:
                best[key] = price
                came[key] = (i, j, way)
                heapq.heappush(queue, (price + left(ni, nj), price, ni, nj, onward))
    return None


def _corners(grid: Grid, came, state) -> list[Point]:
    points = []
    while state is not None:
        points.append((grid.xs[state[0]], grid.ys[state[1]]))
        state = came.get(state)
    points.reverse()
    kept = [points[0]]
    for before, point, after in zip(points, points[1:], points[2:]):
        if not (before[0] == point[0] == after[0] or before[1] == point[1] == after[1]):
            kept.append(point)
    return [*kept, points[-1]]


WAYS = {"up": (0.0, -1.0), "down": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}
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


def landing(sheet: Sheet, node: str) -> list[tuple[float, float, bool, Point]]:
    """Where a line may end at a node: a point before it, whether a dot joins it there, and the end itself."""
    made: list[tuple[float, float, bool, Point]] = []
    for bar in sheet.bars:
        if bar.node == node:
            made += _along(bar)
    for shape in sheet.shapes:
        if shape.node == node and not made:
            made += _posts(sheet, shape)
    return made


def _along(bar: Bar) -> list[tuple[float, float, bool, Point]]:
    (x1, y1), (x2, y2) = bar.start, bar.end
    half, made = bar.thickness / 2, []
    if abs(y1 - y2) < 1e-6:
        for n in range(int((abs(x2 - x1) - 2) / STEP) + 1):
            x = min(x1, x2) + 1 + n * STEP
            made += [(x, y1 + side * (half + 1.2), False, (x, y1 + side * half)) for side in (1, -1)]
        made += [(x2 + 1.2, y1, False, (x2, y1)), (x1 - 1.2, y1, False, (x1, y1))]
    else:
        for n in range(int((abs(y2 - y1) - 2) / STEP) + 1):
            y = min(y1, y2) + 1 + n * STEP
            made += [(x1 + side * (half + 1.2), y, False, (x1 + side * half, y)) for side in (1, -1)]
    return made


def _posts(sheet: Sheet, shape: Shape) -> list[tuple[float, float, bool, Point]]:
    """Beside the line that comes to a symbol's lower (or only) terminal, with a dot."""
    names = [name for name in ("-", "2", "main-", "main", "1") if name in shape.symbol.ports]
    for name in names:
        x, y = at(shape, name)
        side = shape.symbol.sides.get(name, "down")
        dx, dy = WAYS[side]
        lines = [l for l in sheet.lines for p in (l.points[0], l.points[-1]) if abs(p[0] - x) < 0.05 and abs(p[1] - y) < 0.05]
        if lines and dy:
            foot = (x, y + dy * 1.4)
            return [(x + s * 1.4, foot[1], True, foot) for s in (1, -1)]
        if not lines:
            return [(x + dx * 1.4, y + dy * 1.4, False, (x, y))]
    return []
