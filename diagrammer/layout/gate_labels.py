"""Gates of what stands on a sheet: nodes, words, flags."""

from __future__ import annotations

from diagrammer.layout.gate_room import name, pairs, Room
from diagrammer.layout.p4_blocks.block import boxes_of
from diagrammer.layout.scene import Bar, Line
from diagrammer.layout.tags import flag_box, tag
from diagrammer.lettering.width import CAPITALS

SMALLEST_CAPITALS = 1.8  # [mm] ISO 3098


def node_on_node(room: Room):
    for a, b in pairs(room.nodes):
        if isinstance(a, Bar) and isinstance(b, Bar) and a.node == b.node:
            continue  # the legs of one bar
        yield "node on node", f"{name(a)}, {name(b)}"


def label_on_label(room: Room):
    for a, b in pairs(room.words):
        yield "label on label", f"{name(a)}, {name(b)}"


def label_on_symbol(room: Room):
    for a, b in pairs(room.words, room.nodes):
        yield "label on symbol", f"{name(a)}, {name(b)}"


def label_on_line(room: Room):
    lines = [((x1 - 0.1, y1 - 0.1, x2 + 0.1, y2 + 0.1), room.sheet.lines[n]) for x1, y1, x2, y2, n in room.segments]
    for a, b in pairs(room.words, lines):
        yield "label on line", f"{name(a)}, {name(b)}"


def flag_on_others(room: Room):
    flags = [((b.x, b.y, b.x + b.width, b.y + b.height), f) for f in room.sheet.flags for b in [flag_box(f)]]
    lines = [((x1, y1, x2, y2), room.sheet.lines[n]) for x1, y1, x2, y2, n in room.segments]
    for other in (room.nodes, room.words, [((a, b, c + 0.01, d + 0.01), l) for (a, b, c, d), l in lines]):
        for flag, thing in pairs(flags, other):
            if isinstance(thing, Line) and _through(thing, flag_box(flag)):
                continue  # it stands on its own run
            yield "flag on a thing", f"{name(flag)}, {name(thing)}"
    for a, b in pairs(flags):
        yield "flag on flag", f"{name(a)}, {name(b)}"


def _through(line: Line, box) -> bool:
    """Whether a line passes the middle of a box."""
    x, y = box.x + box.width / 2, box.y + box.height / 2
    return any(
        min(a, c) - 0.1 <= x <= max(a, c) + 0.1 and min(b, d) - 0.1 <= y <= max(b, d) + 0.1
        for (a, b), (c, d) in zip(line.points, line.points[1:])
    )


def capital_height(room: Room):
    for text in (*room.sheet.texts, *(tag(s).text for s in room.sheet.stubs)):
        if text.size * CAPITALS < SMALLEST_CAPITALS - 0.005:
            yield "capitals too small", f"{text.text!r} {text.size * CAPITALS:.2f} mm"


def off_sheet(room: Room):
    for box, thing in (*room.nodes, *room.words):
        if box[0] < 0 or box[1] < 0 or box[2] > room.sheet.width or box[3] > room.sheet.height:
            yield "off the sheet", name(thing)


def on_furniture(room: Room):
    """Something of the drawing on the title block with what stands over it, or on the legend."""
    sheet = room.sheet
    for roles in (("title", "caption", "caution", "findings"), ("legend",)):
        boxes = [boxes_of(text)[0] for text in sheet.texts if text.role in roles]
        if boxes:
            left, top, right, low = (edge(values) for edge, values in zip((min, min, max, max), zip(*boxes)))
            lines = (((x1, y1, x2, y2), sheet.lines[n]) for x1, y1, x2, y2, n in room.segments)
            for box, thing in (*room.nodes, *room.words, *lines):
                if box[0] < right and left < box[2] and box[1] < low and top < box[3]:
                    yield "on title block or legend", name(thing)
