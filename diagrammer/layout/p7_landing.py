"""Seventh phase, where a return may land: along a bar, or at the post of a symbol."""

from __future__ import annotations

from diagrammer.layout.p4_blocks.fit import at
from diagrammer.layout.p7_grid import STEP
from diagrammer.layout.scene import Bar, Point, Shape, Sheet

WAYS = {"up": (0.0, -1.0), "down": (0.0, 1.0), "left": (-1.0, 0.0), "right": (1.0, 0.0)}


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
        ends = (p for line in sheet.lines for p in (line.points[0], line.points[-1]))
        lines = [p for p in ends if abs(p[0] - x) < 0.05 and abs(p[1] - y) < 0.05]
        if lines and dy:
            foot = (x, y + dy * 1.4)
            return [(x + s * 1.4, foot[1], True, foot) for s in (1, -1)]
        if not lines:
            return [(x + dx * 1.4, y + dy * 1.4, False, (x, y))]
    return []
