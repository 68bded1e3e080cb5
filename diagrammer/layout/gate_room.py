"""The room that things take on a sheet, and which of them overlap."""

from __future__ import annotations

from functools import cached_property

from diagrammer.layout.p4_blocks.block import boxes_of
from diagrammer.layout.scene import Bar, Line, Shape, Sheet, Stub, Text
from diagrammer.layout.tags import tag, text_box

CLOSE = 0.05  # [mm] what counts as the same place
FURNITURE = frozenset(("frame", "title", "findings", "caption", "caution", "legend"))
Extent = tuple[float, float, float, float]
Segment = tuple[float, float, float, float, int]  # x1, y1, x2, y2 in order, number of its line


def overlap(a: Extent, b: Extent, slack: float = CLOSE) -> bool:
    return a[0] < b[2] - slack and b[0] < a[2] - slack and a[1] < b[3] - slack and b[1] < a[3] - slack


def pairs(boxes: list[tuple[Extent, object]], others: list[tuple[Extent, object]] | None = None):
    """Overlapping pairs, by a sweep along x."""
    same = others is None
    tagged = [(box[0], box, thing, 0) for box, thing in boxes]
    tagged += [] if same else [(box[0], box, thing, 1) for box, thing in others]
    tagged.sort(key=lambda entry: entry[0])
    live: list = []
    for _, box, thing, group in tagged:
        left, top, _, bottom = box
        kept = [(box, thing, group)]
        for entry in live:
            other = entry[0]
            if other[2] > left:
                kept.append(entry)
                if other[1] < bottom and top < other[3] and (same or entry[2] != group) and overlap(box, other):
                    yield (entry[1], thing) if same or entry[2] == 0 else (thing, entry[1])
        live = kept


class Room:
    """A sheet with the room that its things take, worked out once for all gates."""

    def __init__(self, sheet: Sheet) -> None:
        self.sheet = sheet

    nodes = cached_property(lambda self: nodes(self.sheet))
    words = cached_property(lambda self: words(self.sheet))
    segments = cached_property(lambda self: segments(self.sheet))


def nodes(sheet: Sheet) -> list[tuple[Extent, Shape | Bar]]:
    return [(boxes_of(item)[0], item) for item in (*sheet.shapes, *sheet.bars)]


def words(sheet: Sheet) -> list[tuple[Extent, Text | Stub]]:
    made: list = [(boxes_of(t)[0], t) for t in sheet.texts if t.role not in FURNITURE]
    for stub in sheet.stubs:
        box = _tag_box(stub)
        made.append((box, stub))
    return made


def _tag_box(stub: Stub) -> Extent:
    """The tag without its lead."""
    drawn = tag(stub)
    xs = [x for x, _ in drawn.outline] + [x for s in drawn.strokes for x, _ in s]
    ys = [y for _, y in drawn.outline] + [y for s in drawn.strokes for _, y in s]
    if stub.text:
        box = text_box(drawn.text)
        xs += [box.x, box.x + box.width]
        ys += [box.y, box.y + box.height]
    return min(xs), min(ys), max(xs), max(ys)


def segments(sheet: Sheet) -> list[Segment]:
    made = []
    for number, line in enumerate(sheet.lines):
        for (x1, y1), (x2, y2) in zip(line.points, line.points[1:]):
            made.append((min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2), number))
    return made


def name(thing) -> str:
    if isinstance(thing, (Shape, Bar)):
        return thing.node
    if isinstance(thing, Text):
        return f"{thing.text!r}"
    if isinstance(thing, Stub):
        return f"tag {thing.text!r}"
    if isinstance(thing, Line):
        return f"line of {thing.circuit} {thing.cable}"
    return f"flag {thing.numbers}"
