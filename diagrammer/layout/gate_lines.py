"""Gates of lines: where they run, cross and end."""

from __future__ import annotations

from diagrammer.layout.gate_room import CLOSE, name, pairs, Room
from diagrammer.layout.p4_blocks.block import boxes_of
from diagrammer.layout.p4_blocks.fit import at
from diagrammer.layout.scene import Bar, Line, Shape


def line_through_symbol(room: Room):
    """A line inside a symbol; one that only ends at its bound does not enter it."""
    lines = [((x1 - 0.06, y1 - 0.06, x2 + 0.06, y2 + 0.06), room.sheet.lines[n]) for x1, y1, x2, y2, n in room.segments]
    shapes = [((l + 0.1, t + 0.1, r - 0.1, b - 0.1), s) for (l, t, r, b), s in room.nodes if isinstance(s, Shape)]
    for shape, line in pairs(shapes, lines):
        yield "line through symbol", f"{name(shape)}, {name(line)}"
    for bar in room.sheet.bars:
        for line in room.sheet.lines:
            if _passes(bar, line):
                yield "line through symbol", f"{name(bar)}, {name(line)}"


def _passes(bar: Bar, line: Line) -> bool:
    (x1, y1), (x2, y2) = bar.start, bar.end
    for (a, b), (c, d) in zip(line.points, line.points[1:]):
        if y1 == y2 and a == c and min(x1, x2) < a < max(x1, x2) and min(b, d) < y1 - CLOSE and max(b, d) > y1 + CLOSE:
            return True
        if x1 == x2 and b == d and min(y1, y2) < b < max(y1, y2) and min(a, c) < x1 - CLOSE and max(a, c) > x1 + CLOSE:
            return True
    return False


def lines_overlaid(room: Room):
    by_height: dict[tuple[str, float], list[tuple[float, float, int]]] = {}
    for x1, y1, x2, y2, number in room.segments:
        if x2 - x1 > CLOSE:
            by_height.setdefault(("h", round(y1, 1)), []).append((x1, x2, number))
        elif y2 - y1 > CLOSE:
            by_height.setdefault(("v", round(x1, 1)), []).append((y1, y2, number))
    for runs in by_height.values():
        runs.sort()
        for first, second in zip(runs, runs[1:]):
            if second[0] < first[1] - CLOSE:
                yield "lines overlaid", f"{name(room.sheet.lines[first[2]])}, {name(room.sheet.lines[second[2]])}"


def crossings(room: Room):
    """Sound lines that cross; a return at fault is drawn across whatever is in its way."""
    sound = [s for s in room.segments if room.sheet.lines[s[4]].weight != "fault"]
    flat = [s for s in sound if s[2] - s[0] > CLOSE]
    tall = [s for s in sound if s[3] - s[1] > CLOSE]
    for number, other in pairs([(s[:4], s[4]) for s in flat], [(s[:4], s[4]) for s in tall]):
        if number != other:
            yield "crossing", f"{name(room.sheet.lines[number])}, {name(room.sheet.lines[other])}"


def right_angles(room: Room):
    for line in room.sheet.lines:
        for (x1, y1), (x2, y2) in zip(line.points, line.points[1:]):
            if abs(x1 - x2) > 1e-6 and abs(y1 - y2) > 1e-6:
                yield "right angles", name(line)


def ends_on_terminals(room: Room):
    """Each end of a line is a symbol's terminal, on a bar, at a tag, or on another line."""
    ports = {(round(x, 1), round(y, 1)) for s in room.sheet.shapes for x, y in [at(s, port) for port in s.symbol.ports]}
    known = ports | {(round(s.at[0], 1), round(s.at[1], 1)) for s in room.sheet.stubs}
    for number, line in enumerate(room.sheet.lines):
        for end in (line.points[0], line.points[-1]):
            if not _near(known, end) and not _on_bar(room, end) and not _on_line(room, end, number):
                yield "line end not on a terminal", f"{name(line)} at {end[0]:.1f}, {end[1]:.1f}"
    for stub in room.sheet.stubs:
        if not _near(ports, stub.at) and not _on_bar(room, stub.at) and not _on_line(room, stub.at, -1):
            yield "line end not on a terminal", f"{name(stub)} at {stub.at[0]:.1f}, {stub.at[1]:.1f}"


def _near(points: set, end) -> bool:
    x, y = round(end[0], 1), round(end[1], 1)
    return any((round(x + dx, 1), round(y + dy, 1)) in points for dx in (0, 0.1, -0.1) for dy in (0, 0.1, -0.1))


def _on_bar(room: Room, end) -> bool:
    for bar in room.sheet.bars:
        l, t, r, b = boxes_of(bar)[0]
        if l - CLOSE <= end[0] <= r + CLOSE and t - CLOSE <= end[1] <= b + CLOSE:
            return True
    return False


def _on_line(room: Room, end, number: int) -> bool:
    return any(
        n != number and x1 - CLOSE <= end[0] <= x2 + CLOSE and y1 - CLOSE <= end[1] <= y2 + CLOSE
        for x1, y1, x2, y2, n in room.segments
    )


def straight_devices(room: Room):
    """What stands in series in a line has it come and go along the axis of its two terminals."""
    ends: dict[tuple[float, float], list[tuple[Line, bool]]] = {}
    for line in room.sheet.lines:
        for here, there in ((line.points[0], line.points[1]), (line.points[-1], line.points[-2])):
            flat = abs(here[1] - there[1]) < CLOSE
            ends.setdefault((round(here[0], 1), round(here[1], 1)), []).append((line, flat))
    for shape in room.sheet.shapes:
        ports = shape.symbol.ports
        if set(ports) >= {"1", "2"} and ports["1"][0] == ports["2"][0] == 0:
            for point in (at(shape, "1"), at(shape, "2")):
                for line, flat in ends.get((round(point[0], 1), round(point[1], 1)), ()):
                    if flat != (shape.turn in (90, 270)):
                        yield "series device not straight", f"{name(shape)}, {name(line)}"


def tap_order(room: Room):
    """Taps in the order of the file: rows down a vertical bar, columns along a level one. Below that the bank may come
    first and what makes ac last, each in its own order."""
    for bar in room.sheet.bars:
        level = bar.start[1] == bar.end[1]
        for way, runs in ((1, 3), (-1, 1)) if level else ((1, 1),):
            taps = sorted(_taps(room, bar, level, way))
            back = [what for (_, before, _), (_, after, what) in zip(taps, taps[1:]) if after < before]
            if len(back) >= runs:
                yield "taps out of order", f"{name(bar)}, {', '.join(back)}"


def _taps(room: Room, bar: Bar, level: bool, way: int):
    """Lines that leave a bar to one side (1: down or right): where along it, the line of the file, and their name."""
    along, across, half = (0, 1, bar.thickness / 2 + CLOSE) if level else (1, 0, bar.thickness / 2 + CLOSE)
    low, high = sorted((bar.start[along], bar.end[along]))
    for line in room.sheet.lines:
        first, second = line.points[:2]
        on = low <= first[along] <= high and abs(first[across] - bar.start[across]) <= half
        if line.line and on and (second[across] - bar.start[across]) * way > half:
            yield first[along], line.line, name(line)
