"""Gates: what must hold on a finished scene. Computed on the scene alone, by tests and while drawing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from diagrammer.layout.p4_blocks.block import boxes_of
from diagrammer.layout.p4_blocks.fit import at
from diagrammer.layout.scene import Bar, Line, Scene, Shape, Sheet, Stub, Text
from diagrammer.layout.tags import flag_box, tag, text_box
from diagrammer.lettering.width import CAPITALS

CLOSE = 0.05  # [mm] what counts as the same place
SMALLEST_CAPITALS = 1.8  # [mm] ISO 3098
FURNITURE = frozenset(("frame", "title", "findings", "caption", "caution", "legend"))

Extent = tuple[float, float, float, float]
Segment = tuple[float, float, float, float, int]  # x1, y1, x2, y2 in order, number of its line


@dataclass(frozen=True)
class Fault:
    """One breach of a gate, on a sheet, between the things named."""

    gate: str
    sheet: int
    what: str

    def __str__(self) -> str:
        return f"sheet {self.sheet}: {self.gate}: {self.what}"


def faults(scene: Scene) -> tuple[Fault, ...]:
    """All breaches, in the order of the sheets and gates."""
    made: list[Fault] = []
    for sheet in scene.sheets:
        made += [Fault(gate, sheet.number, what) for check in CHECKS for gate, what in check(sheet)]
    return (*made, *_references(scene))


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
        live = [entry for entry in live if entry[0][2] > box[0]]
        for other, held, held_group in live:
            if (same or held_group != group) and overlap(box, other):
                yield (held, thing) if same or held_group == 0 else (thing, held)
        live.append((box, thing, group))


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


def node_on_node(sheet: Sheet):
    for a, b in pairs(nodes(sheet)):
        if isinstance(a, Bar) and isinstance(b, Bar) and a.node == b.node:
            continue  # the legs of one bar
        yield "node on node", f"{name(a)}, {name(b)}"


def label_on_label(sheet: Sheet):
    for a, b in pairs(words(sheet)):
        yield "label on label", f"{name(a)}, {name(b)}"


def label_on_symbol(sheet: Sheet):
    for a, b in pairs(words(sheet), nodes(sheet)):
        yield "label on symbol", f"{name(a)}, {name(b)}"


def label_on_line(sheet: Sheet):
    lines = [((x1 - 0.1, y1 - 0.1, x2 + 0.1, y2 + 0.1), sheet.lines[n]) for x1, y1, x2, y2, n in segments(sheet)]
    for a, b in pairs(words(sheet), lines):
        yield "label on line", f"{name(a)}, {name(b)}"


def flag_on_others(sheet: Sheet):
    flags = [((b.x, b.y, b.x + b.width, b.y + b.height), f) for f in sheet.flags for b in [flag_box(f)]]
    lines = [((x1, y1, x2, y2), sheet.lines[n]) for x1, y1, x2, y2, n in segments(sheet)]
    for other in (nodes(sheet), words(sheet), [((a, b, c + 0.01, d + 0.01), l) for (a, b, c, d), l in lines]):
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


def line_through_symbol(sheet: Sheet):
    """A line inside a symbol; one that only ends at its bound does not enter it."""
    lines = [((x1 - 0.06, y1 - 0.06, x2 + 0.06, y2 + 0.06), sheet.lines[n]) for x1, y1, x2, y2, n in segments(sheet)]
    shapes = [((l + 0.1, t + 0.1, r - 0.1, b - 0.1), s) for (l, t, r, b), s in nodes(sheet) if isinstance(s, Shape)]
    for shape, line in pairs(shapes, lines):
        yield "line through symbol", f"{name(shape)}, {name(line)}"
    for bar in sheet.bars:
        for line in sheet.lines:
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


def lines_overlaid(sheet: Sheet):
    by_height: dict[tuple[str, float], list[tuple[float, float, int]]] = {}
    for x1, y1, x2, y2, number in segments(sheet):
        if x2 - x1 > CLOSE:
            by_height.setdefault(("h", round(y1, 1)), []).append((x1, x2, number))
        elif y2 - y1 > CLOSE:
            by_height.setdefault(("v", round(x1, 1)), []).append((y1, y2, number))
    for runs in by_height.values():
        runs.sort()
        for first, second in zip(runs, runs[1:]):
            if second[0] < first[1] - CLOSE:
                yield "lines overlaid", f"{name(sheet.lines[first[2]])}, {name(sheet.lines[second[2]])}"


def crossings(sheet: Sheet):
    """Sound lines that cross; a return at fault is drawn across whatever is in its way."""
    sound = [s for s in segments(sheet) if sheet.lines[s[4]].weight != "fault"]
    flat = [s for s in sound if s[2] - s[0] > CLOSE]
    tall = [s for s in sound if s[3] - s[1] > CLOSE]
    tall.sort()
    for x1, y, x2, _, number in flat:
        for x, y1, _, y2, other in tall:
            if x1 + CLOSE < x < x2 - CLOSE and y1 + CLOSE < y < y2 - CLOSE and number != other:
                yield "crossing", f"{name(sheet.lines[number])}, {name(sheet.lines[other])}"


def right_angles(sheet: Sheet):
    for line in sheet.lines:
        for (x1, y1), (x2, y2) in zip(line.points, line.points[1:]):
            if abs(x1 - x2) > 1e-6 and abs(y1 - y2) > 1e-6:
                yield "right angles", name(line)


def ends_on_terminals(sheet: Sheet):
    """Each end of a line is a symbol's terminal, on a bar, at a tag, or on another line."""
    ports = {(round(x, 1), round(y, 1)) for s in sheet.shapes for x, y in [at(s, port) for port in s.symbol.ports]}
    known = ports | {(round(s.at[0], 1), round(s.at[1], 1)) for s in sheet.stubs}
    for number, line in enumerate(sheet.lines):
        for end in (line.points[0], line.points[-1]):
            if not _near(known, end) and not _on_bar(sheet, end) and not _on_line(sheet, end, number):
                yield "line end not on a terminal", f"{name(line)} at {end[0]:.1f}, {end[1]:.1f}"
    for stub in sheet.stubs:
        if not _near(ports, stub.at) and not _on_bar(sheet, stub.at) and not _on_line(sheet, stub.at, -1):
            yield "line end not on a terminal", f"{name(stub)} at {stub.at[0]:.1f}, {stub.at[1]:.1f}"


def _near(points: set, end) -> bool:
    x, y = round(end[0], 1), round(end[1], 1)
    return any((round(x + dx, 1), round(y + dy, 1)) in points for dx in (0, 0.1, -0.1) for dy in (0, 0.1, -0.1))


def _on_bar(sheet: Sheet, end) -> bool:
    for bar in sheet.bars:
        l, t, r, b = boxes_of(bar)[0]
        if l - CLOSE <= end[0] <= r + CLOSE and t - CLOSE <= end[1] <= b + CLOSE:
            return True
    return False


def _on_line(sheet: Sheet, end, number: int) -> bool:
    return any(
        n != number and x1 - CLOSE <= end[0] <= x2 + CLOSE and y1 - CLOSE <= end[1] <= y2 + CLOSE
        for x1, y1, x2, y2, n in segments(sheet)
    )


def straight_devices(sheet: Sheet):
    """What stands in series in a line has it come and go along the axis of its two terminals."""
    ends: dict[tuple[float, float], list[tuple[Line, bool]]] = {}
    for line in sheet.lines:
        for here, there in ((line.points[0], line.points[1]), (line.points[-1], line.points[-2])):
            flat = abs(here[1] - there[1]) < CLOSE
            ends.setdefault((round(here[0], 1), round(here[1], 1)), []).append((line, flat))
    for shape in sheet.shapes:
        ports = shape.symbol.ports
        if set(ports) >= {"1", "2"} and ports["1"][0] == ports["2"][0] == 0:
            for point in (at(shape, "1"), at(shape, "2")):
                for line, flat in ends.get((round(point[0], 1), round(point[1], 1)), ()):
                    if flat != (shape.turn in (90, 270)):
                        yield "series device not straight", f"{name(shape)}, {name(line)}"


def capital_height(sheet: Sheet):
    for text in (*sheet.texts, *(tag(s).text for s in sheet.stubs)):
        if text.size * CAPITALS < SMALLEST_CAPITALS - 0.005:
            yield "capitals too small", f"{text.text!r} {text.size * CAPITALS:.2f} mm"


def tap_order(sheet: Sheet):
    """Rows leave a vertical bar in the order of the file."""
    for bar in sheet.bars:
        (x, top), (other, bottom) = bar.start, bar.end
        if x != other:
            continue
        taps = sorted(
            (line.points[0][1], line.line, name(line)) for line in sheet.lines
            if line.line and abs(line.points[0][0] - x - bar.thickness / 2) < CLOSE and top <= line.points[0][1] <= bottom
        )
        for (_, before, _), (_, after, what) in zip(taps, taps[1:]):
            if after < before:
                yield "taps out of order", f"{name(bar)}, {what}"


def off_sheet(sheet: Sheet):
    for box, thing in (*nodes(sheet), *words(sheet)):
        if box[0] < 0 or box[1] < 0 or box[2] > sheet.width or box[3] > sheet.height:
            yield "off the sheet", name(thing)


CHECKS = (
    node_on_node, label_on_label, label_on_symbol, label_on_line, flag_on_others, line_through_symbol, lines_overlaid,
    crossings, right_angles, ends_on_terminals, straight_devices, capital_height, tap_order, off_sheet,
)


def _references(scene: Scene) -> list[Fault]:
    """Every reference has exactly one partner, which names it in turn."""
    stubs = [(s.number, stub) for s in scene.sheets for stub in s.stubs if stub.form in ("to", "from")]
    known: dict[str, list] = {}
    for number, stub in stubs:
        known.setdefault(stub.id, []).append((number, stub))
    made = []
    for number, stub in stubs:
        partners = known.get(stub.partner, [])
        if len(partners) != 1 or partners[0][1].partner != stub.id or len(known[stub.id]) != 1:
            made.append(Fault("reference without its partner", number, f"{name(stub)} {stub.id}"))
    return made


def undrawn(scene: Scene, cables: Mapping[str, str]) -> list[Fault]:
    """Cables that no line shows, and no tag. cables: the tag's id that may stand for each."""
    shown = {line.cable for sheet in scene.sheets for line in sheet.lines}
    tags = {stub.id for sheet in scene.sheets for stub in sheet.stubs}
    return [Fault("link not drawn", 0, name) for name, stub in cables.items() if name not in shown and stub not in tags]


def bends(scene: Scene) -> float:
    """Bends a circuit, on average; not those of returns at fault, which are drawn on top."""
    circuits = {line.circuit for sheet in scene.sheets for line in sheet.lines if line.circuit}
    total = sum(len(line.points) - 2 for sheet in scene.sheets for line in sheet.lines if line.weight != "fault")
    return total / max(1, len(circuits))


