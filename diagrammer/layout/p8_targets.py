"""Eighth phase, targets: what on which sheet each mark points at, numbered in reading order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from diagrammer.frozen import frozen
from diagrammer.layout.mark import Mark
from diagrammer.layout.p4_blocks.block import boxes_of, Extent
from diagrammer.layout.scene import Bar, Point, Sheet
from diagrammer.layout.tags import tag

PARTS = (0.5, 0.58, 0.42, 0.66, 0.34, 0.74, 0.26, 0.82, 0.18)  # of a run where a flag may stand on it


@frozen
class Target:
    """What a mark points at: a sheet (its index) and the room of the thing, outlined or not; `on`:
    points of a line that a flag may stand on; `else_`: other room, at the far end of a bar."""

    sheet: int
    box: Extent
    outlined: bool
    on: tuple[Point, ...] = ()
    else_: Extent | None = None
    cable: str = ""


def target(sheets: Sequence[Sheet], mark: Mark, stubs: Mapping[str, str]) -> Target | None:
    """The first thing a mark names that is drawn. stubs: the tag that stands for a cable."""
    for name in mark.nodes[:1]:
        found = _node(sheets, name)
        if found:
            return found
    for cable in mark.conductors:
        found = _cable(sheets, cable, stubs)
        if found:
            return found
    return next((found for name in mark.nodes for found in [_node(sheets, name)] if found), None)


def _node(sheets: Sequence[Sheet], name: str) -> Target | None:
    for number, sheet in enumerate(sheets):
        for shape in sheet.shapes:
            if shape.node == name:
                return Target(number, boxes_of(shape)[0], True)
        for bar in reversed(sheet.bars):
            if bar.node == name:
                last, first = (_end(bar, *point) for point in (bar.end, bar.start))
                return Target(number, last, False, else_=first)
    return None


def _end(bar: Bar, x: float, y: float) -> Extent:
    half = bar.thickness / 2
    return x - half, y - half, x + half, y + half


def _cable(sheets: Sequence[Sheet], cable: str, stubs: Mapping[str, str]) -> Target | None:
    circuit, stub_of = cable.rpartition(":")[0], stubs.get(cable, "")
    for same in (lambda line: line.cable == cable, lambda line: stub_of and stubs.get(line.cable) == stub_of,
                 lambda line: line.circuit == circuit and line.cable):
        for number, sheet in enumerate(sheets):
            lines = [line for line in sheet.lines if same(line)]
            if lines:
                runs = [(a, b) for line in lines for a, b in zip(line.points, line.points[1:])]
                a, b = max(runs, key=lambda run: abs(run[0][0] - run[1][0]) + abs(run[0][1] - run[1][1]))
                x, y = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
                longest = sorted(runs, key=lambda run: -abs(run[0][0] - run[1][0]) - abs(run[0][1] - run[1][1]))
                on = tuple(
                    (p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part) for p, q in longest for part in PARTS
                )
                return Target(number, (x - 0.2, y - 0.2, x + 0.2, y + 0.2), False, on, None, lines[0].cable)
            for stub in sheet.stubs:
                if stub.id == stub_of:
                    box = tag(stub).box
                    return Target(number, (box.x, box.y, box.x + box.width, box.y + box.height), True)
    return None


@frozen
class Group:
    """All marks of one target, with their numbers."""

    target: Target
    marks: tuple[Mark, ...]
    numbers: tuple[int, ...] = ()


def groups(
    sheets: Sequence[Sheet], marks: Sequence[Mark], stubs: Mapping[str, str], zone,
) -> tuple[list[Group], list[Mark]]:
    """Marks by target, numbered in reading order: sheet, then zone, then place; and those without one."""
    found: dict[Target, list[Mark]] = {}
    lost: list[Mark] = []
    for mark in sorted(marks, key=lambda m: (m.accepted, m.number)):
        there = target(sheets, mark, stubs)
        if there:
            found.setdefault(there, []).append(mark)
        else:
            lost.append(mark)

    def place(entry) -> tuple:
        box = entry[0].box
        letter, digits = (zone(middle(box)) or "A0")[0], (zone(middle(box)) or "A0")[1:]
        return entry[0].sheet, letter, int(digits), round(box[1], 1), round(box[0], 1)

    made, number = [], 0
    for there, mine in sorted(found.items(), key=place):
        numbers = tuple(range(number + 1, number + len(mine) + 1))
        number += len(mine)
        made.append(Group(there, tuple(mine), numbers))
    return made, lost


def middle(box: Extent) -> Point:
    return (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
