"""Seventh phase: the number of a return that is drawn in full, beside its line.

Before: a sheet whose last line has just been drawn in place of a tag. After: its number stands at its longest piece
with room for it; where none has, it is left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from diagrammer.layout.p4_blocks.block import Extent, boxes_of
from diagrammer.layout.scene import Line, Sheet, Text
from diagrammer.layout.tags import CAPS, SIZE
from diagrammer.layout.texts import width

SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)  # of a piece, where the number may stand
CLEAR = 0.3  # [mm] round it


def numbered(sheet: Sheet, number: str) -> Sheet:
    """The sheet with `number` at its last line."""
    line = sheet.lines[-1]
    every = (*sheet.shapes, *sheet.bars, *sheet.stubs, *sheet.texts, *sheet.lines)
    taken = [box for item in every for box in boxes_of(item)]
    for text in _places(line, number):
        (left, top, right, low), = boxes_of(text)
        if not any(_meet((left - CLEAR, top, right + CLEAR, low), box) for box in taken):
            return replace(sheet, texts=(*sheet.texts, text))
    return sheet


def _places(line: Line, number: str) -> Iterator[Text]:
    """Right of upright pieces, over level ones; the longest first."""
    wide = width(number, SIZE, True)
    pieces = sorted(zip(line.points, line.points[1:]), key=lambda ends: -_length(*ends))
    for (x1, y1), (x2, y2) in pieces:
        for share in SHARES:
            x, y = x1 + (x2 - x1) * share, y1 + (y2 - y1) * share
            if x1 == x2:
                yield Text(x + 0.8, y + CAPS / 2, number, SIZE, "wire", "start", True, line.cable)
            elif abs(x2 - x1) > wide:
                yield Text(x - wide / 2, y - 0.8, number, SIZE, "wire", "start", True, line.cable)


def _length(a: tuple[float, float], b: tuple[float, float]) -> float:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _meet(one: Extent, other: Extent) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
