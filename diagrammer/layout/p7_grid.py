"""Seventh phase, the grid of a sheet: where a line may run, and what it would cross."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable

from diagrammer.layout.gate_room import FURNITURE
from diagrammer.layout.p4_blocks.block import boxes_of, Extent
from diagrammer.layout.scene import Box, Point, Sheet, Stub, Text
from diagrammer.layout.tags import tag

STEP = 2.0  # [mm] of the grid
SPACE = 2.0  # [mm] between words of one row
AWAY = 0.9  # [mm] from anything that is not its own
Goal = tuple[float, float, bool]  # x, y, and whether the way ends there across a line (a dot)


def rows(texts: Iterable[Text]) -> list[Extent]:
    """The room of words, those of one thing that follow each other in a row as one: no line parts a name."""
    made: list[Extent] = []
    last = None
    for text in sorted(texts, key=lambda text: (text.owner, text.y, text.x)):
        box = boxes_of(text)[0]
        if last and (last.owner, last.y) == (text.owner, text.y) and box[0] - made[-1][2] <= SPACE:
            l, t, r, b = made[-1]
            made[-1] = l, min(t, box[1]), max(r, box[2]), max(b, box[3])
        else:
            made.append(box)
        last = text
    return made


class Grid:
    """Grid lines of a sheet, with the pieces that are closed and the lines that cross them."""

    def __init__(
        self, sheet: Sheet, area: Box, taken: list[Extent], start: Point, goals: list[Goal], mine: Stub,
    ) -> None:
        self.xs = _ruler(area.x, area.x + area.width, [start[0], *(x for x, _, _ in goals)])
        self.ys = _ruler(area.y, area.y + area.height, [start[1], *(y for _, y, _ in goals)])
        self.closed: tuple[set, set] = (set(), set())  # pieces along x, along y
        self.crossed: dict[tuple[int, int, int], int] = {}
        for box in taken:
            self._close(box, 0.5)
        for shape in sheet.shapes:
            self._close(boxes_of(shape)[0], 0.6)
        for box in rows(text for text in sheet.texts if text.role not in FURNITURE):
            self._close(box, 0.3)
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

    def ways(self, i: int, j: int) -> list[tuple[int, int, int, float, int]]:
        """Neighbours: (i, j, direction, length, crossings)."""
        xs, ys, (flat, tall), crossed = self.xs, self.ys, self.closed, self.crossed
        made = []
        if i + 1 < len(xs) and (i, j) not in flat:
            made.append((i + 1, j, 0, xs[i + 1] - xs[i], crossed.get((0, i, j), 0)))
        if j + 1 < len(ys) and (i, j) not in tall:
            made.append((i, j + 1, 1, ys[j + 1] - ys[j], crossed.get((1, i, j), 0)))
        if i and (i - 1, j) not in flat:
            made.append((i - 1, j, 0, xs[i] - xs[i - 1], crossed.get((0, i - 1, j), 0)))
        if j and (i, j - 1) not in tall:
            made.append((i, j - 1, 1, ys[j] - ys[j - 1], crossed.get((1, i, j - 1), 0)))
        return made


def _ruler(low: float, high: float, more: list[float]) -> list[float]:
    count = int((high - low) / STEP)
    return sorted({round(low + n * STEP, 3) for n in range(count + 1)} | {round(x, 3) for x in more})
