"""Eighth phase: flags of the marks, numbered in reading order.

Before: sheets whose lines are final. After: every mark has one flag on one sheet, on nothing but
its target's outline, with a leader where it stands further than 1.5 mm from it; the rows of the
findings table carry the same numbers, and the zones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from diagrammer.layout.p4_blocks.block import boxes_of, Extent
from diagrammer.layout.p8_targets import Group, middle
from diagrammer.layout.scene import Box, Flag, Point, Sheet
from diagrammer.layout.tags import flag_box
from diagrammer.text.finding import SEVERITIES

NEAR = 1.5  # [mm] a flag may stand from its target without a leader
ROUND = 0.7  # [mm] from the faulty thing to its outline
RINGS = (0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 9.0, 13.0, 18.0, 25.0, 34.0)
SIDES = (
    (1, -1), (-1, -1), (1, 0), (-1, 0), (0, -1), (0, 1), (1, 1), (-1, 1), (0.5, -1), (-0.5, -1), (0.5, 1), (-0.5, 1),
)
CELL = 8.0  # [mm] of the hash of obstacles


class Obstacles:
    """Everything on a sheet that a flag must not cover, by cells."""

    def __init__(self, boxes: Sequence[tuple[Extent, str]]) -> None:
        self.cells: dict[tuple[int, int], list[tuple[Extent, str]]] = {}
        for box, owner in boxes:
            self.add(box, owner)

    def add(self, box: Extent, owner: str = "") -> None:
        for cell in self._cells(box):
            self.cells.setdefault(cell, []).append((box, owner))

    def _cells(self, box: Extent):
        for i in range(int(box[0] // CELL), int(box[2] // CELL) + 1):
            for j in range(int(box[1] // CELL), int(box[3] // CELL) + 1):
                yield i, j

    def hits(self, box: Extent, but: str = "") -> bool:
        """Whether a box meets anything; lines of the cable `but` do not count."""
        return any(
            box[0] < o[2] and o[0] < box[2] and box[1] < o[3] and o[1] < box[3] and not (but and owner == but)
            for cell in self._cells(box) for o, owner in self.cells.get(cell, ())
        )


def flagged(sheet: Sheet, mine: Sequence[Group], area: Box, taken: Sequence[Extent]) -> Sheet:
    """The sheet with the flags of its groups."""
    if not mine:
        return sheet
    field = Obstacles([*((box, "") for box in taken), *_room(sheet)])
    flags = []
    for group in mine:
        flag = _flag(group, field, area)
        flags.append(flag)
        box = flag_box(flag)
        field.add((box.x, box.y, box.x + box.width, box.y + box.height))
    return replace(sheet, flags=tuple(flags))


def _room(sheet: Sheet) -> list[tuple[Extent, str]]:
    made: list[tuple[Extent, str]] = []
    for item in (*sheet.shapes, *sheet.bars, *sheet.texts, *sheet.stubs):
        made += [(box, "") for box in boxes_of(item)]
    for line in sheet.lines:
        pieces = len(line.points) - 1  # what follows them are its strokes, which no flag may cover
        made += [
            ((a - 0.3, b - 0.3, c + 0.3, d + 0.3), line.cable if n < pieces else "")
            for n, (a, b, c, d) in enumerate(boxes_of(line))
        ]
    return made


def _flag(group: Group, field: Obstacles, area: Box) -> Flag:
    """On the run, close to the thing, or with a leader: whatever is free first."""
    worst = min(group.marks, key=lambda m: (m.accepted, SEVERITIES.index(m.severity)))
    rules = tuple(dict.fromkeys(m.rule for m in group.marks))
    paths = tuple(dict.fromkeys(" > ".join(m.path) for m in group.marks if m.path))
    there = group.target
    accepted = all(m.accepted for m in group.marks)
    margin = ROUND if there.outlined else 0.0
    l, t, r, b = there.box
    outer = (l - margin, t - margin, r + margin, b + margin)
    outline = Box(outer[0], outer[1], outer[2] - outer[0], outer[3] - outer[1]) if there.outlined else None
    bare = Flag(group.numbers, worst.severity, (0.0, 0.0), rules, outline, (), accepted, paths)
    own = flag_box(bare)
    for point in there.on:
        x, y = point[0] - own.x - own.width / 2, point[1] - own.y - own.height / 2
        flag = replace(bare, at=(round(x, 2), round(y, 2)))
        if _inside(_room_of(flag), area) and not field.hits(_room_of(flag), there.cable):
            return flag
    boxes = [outer] + ([there.else_] if there.else_ else [])
    found = [flag for flag in (_beside(bare, own, box, field, area) for box in boxes) if flag]
    return min(found, key=_length) if found else replace(bare, at=(r + own.width, t - own.height))


def _length(flag: Flag) -> float:
    """Of a flag's leader, 0 where it has none."""
    if not flag.leader:
        return 0.0
    (x1, y1), (x2, y2) = flag.leader
    return ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5


def _room_of(flag: Flag) -> Extent:
    box = flag_box(flag)
    return box.x - 0.2, box.y - 0.2, box.x + box.width + 0.2, box.y + box.height + 0.2


def _inside(room: Extent, area: Box) -> bool:
    return (
        room[0] >= area.x and room[1] >= area.y
        and room[2] <= area.x + area.width and room[3] <= area.y + area.height
    )


def _beside(bare: Flag, own: Box, target_: Extent, field: Obstacles, area: Box) -> Flag | None:
    """The nearest free place round a box; further off than a little, one whose leader is free too."""
    best: Flag | None = None
    for distance in RINGS:
        for sx, sy in SIDES:
            flag = replace(bare, at=_spot(target_, own, sx, sy, distance))
            room = _room_of(flag)
            if not _inside(room, area) or field.hits(room):
                continue
            if _gap(target_, room) <= NEAR:
                return flag
            led = replace(flag, leader=_leader(target_, room))
            if _free(led.leader, field, target_):
                return led
            best = best or led
    return best


def _spot(box: Extent, own: Box, sx: float, sy: float, distance: float) -> Point:
    """The flag's `at` so that it stands off the box by a distance, to the side given."""
    (l, t, r, b), half_w, half_h = box, own.width / 2, own.height / 2
    between = (l + r) / 2 + sx * (r - l + own.width) / 2
    x = {1: r + distance + half_w, -1: l - distance - half_w, 0: (l + r) / 2}.get(sx, between)
    y = {1: b + distance + half_h, -1: t - distance - half_h, 0: (t + b) / 2}[sy]
    if sx in (1, -1) and sy:
        y = t - distance * 0.3 + half_h * 0.2 if sy < 0 else b + distance * 0.3 - half_h * 0.2
    return round(x - (own.x + half_w), 2), round(y - (own.y + half_h), 2)


def _gap(box: Extent, other: Extent) -> float:
    dx = max(other[0] - box[2], box[0] - other[2], 0.0)
    dy = max(other[1] - box[3], box[1] - other[3], 0.0)
    return (dx * dx + dy * dy) ** 0.5


def _leader(box: Extent, flag: Extent) -> tuple[Point, ...]:
    """From the flag's edge to the nearest point of the outline."""
    fx, fy = middle(flag)
    x, y = min(max(fx, box[0]), box[2]), min(max(fy, box[1]), box[3])
    start = min(max(x, flag[0]), flag[2]), min(max(y, flag[1]), flag[3])
    return start, (x, y)


def _free(leader: tuple[Point, ...], field: Obstacles, box: Extent) -> bool:
    """Whether a leader meets nothing on its way: looked at from millimetre to millimetre."""
    (x1, y1), (x2, y2) = leader
    steps = max(1, int(((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5))
    for n in range(steps):
        x, y = x1 + (x2 - x1) * n / steps, y1 + (y2 - y1) * n / steps
        if field.hits((x - 0.5, y - 0.5, x + 0.5, y + 0.5)) and _gap(box, (x, y, x, y)) > 0.8:
            return False
    return True
