"""How much room stubs, flags and conductor strokes take, and where their words stand.

Drawing draws what is worked out here, so that the gates measure what is really drawn.
"""

from __future__ import annotations

from functools import lru_cache

from diagrammer.frozen import frozen
from diagrammer.layout.scene import Box, Flag, Point, Stub, Text
from diagrammer.lettering.width import CAPITALS, SMALLEST, width

SIZE = SMALLEST  # [mm] font size of all words here
CAPS = SIZE * CAPITALS

LEAD = 2.0  # [mm] line from a stub's point to its tag
TAG = 3.2  # [mm] height of a tag that holds words
PENTAGON = (5.0, 4.0)  # [mm] across and along a reference's arrow
FLAG = 5.2  # [mm] height of a flag
DISC = 4.4  # [mm] height of a notice's disc
STROKE = 1.2  # [mm] half of the stroke that counts conductors, in each direction

WAYS: dict[str, Point] = {"up": (0, -1), "down": (0, 1), "left": (-1, 0), "right": (1, 0)}


@frozen
class Tag:
    """A stub laid out: its lead, the closed outline of its tag ((), if it has none), open strokes,
    its words, and the box that holds it all."""

    lead: tuple[Point, Point]
    outline: tuple[Point, ...]
    strokes: tuple[tuple[Point, Point], ...]
    text: Text
    box: Box


def bound(*points: Point) -> Box:
    """The smallest box round points."""
    xs, ys = zip(*points)
    return Box(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


def text_box(text: Text) -> Box:
    """Room of one line of text: its capitals and what hangs below the base line."""
    left, top, right, bottom = text_extent(text)
    return Box(left, top, right - left, bottom - top)


def text_extent(text: Text) -> tuple[float, float, float, float]:
    """The same room as left, top, right, bottom."""
    size, anchor = text.size, text.anchor
    wide = width(text.text, size, text.bold)
    left = text.x if anchor == "start" else text.x - (wide if anchor == "end" else wide / 2)
    top = text.y - size * 0.76
    return left, top, left + wide, top + size * 0.98


@lru_cache(maxsize=2048)
def tag(stub: Stub) -> Tag:
    """A stub laid out. The words are never turned."""
    (x, y), (dx, dy) = stub.at, WAYS[stub.side]
    end = (x + dx * LEAD, y + dy * LEAD)
    forms = {"return": _return, "earth": _earth, "to": _reference, "from": _reference}
    outline, strokes, text = forms[stub.form](stub, end)
    words = text_box(text)
    corners = ((words.x, words.y), (words.x + words.width, words.y + words.height)) if stub.text else ()
    box = bound(stub.at, end, *outline, *(point for stroke in strokes for point in stroke), *corners)
    return Tag((stub.at, end), outline, strokes, text, box)


def _words(stub: Stub, x: float, y: float, anchor: str) -> Text:
    """The stub's words, the middle of their capitals at height y."""
    role = "reference" if stub.form in ("to", "from") else "wire"
    return Text(x, y + CAPS / 2, stub.text, SIZE, role, anchor, owner=stub.node)


def _return(stub: Stub, end: Point):
    """A small box with the name of the bar."""
    (x, y), (dx, dy) = end, WAYS[stub.side]
    wide = width(stub.text, SIZE) + 1.4
    middle = (x + dx * wide / 2, y + dy * TAG / 2)
    left, right = middle[0] - wide / 2, middle[0] + wide / 2
    top, bottom = middle[1] - TAG / 2, middle[1] + TAG / 2
    return ((left, top), (right, top), (right, bottom), (left, bottom)), (), _words(stub, *middle, "middle")


def _earth(stub: Stub, end: Point):
    """The three strokes of earth, square to the lead, and the words beyond or beside them."""
    (x, y), (dx, dy) = end, WAYS[stub.side]
    strokes = tuple(
        ((x + dx * far - dy * half, y + dy * far - dx * half), (x + dx * far + dy * half, y + dy * far + dx * half))
        for far, half in ((0, 1.5), (0.7, 0.95), (1.4, 0.4))
    )
    if dx:
        return (), strokes, _words(stub, x + dx * 2.4, y, "start" if dx > 0 else "end")
    return (), strokes, _words(stub, x + 2.2, y + dy * 0.7, "start")


def _reference(stub: Stub, end: Point):
    """A pentagon that points the way the current goes: out of a "to", into the line of a "from"."""
    (x, y), (dx, dy) = end, WAYS[stub.side]
    across, along = PENTAGON
    near, far = (0.45, 1.0) if stub.form == "to" else (0.55, 0.0)
    flat, tip = (0.0, far) if stub.form == "to" else (1.0, far)

    def at(share: float, side: float) -> Point:
        return (x + dx * along * share - dy * side * across / 2, y + dy * along * share + dx * side * across / 2)

    outline = (at(flat, -1), at(flat, 1), at(near, 1), at(tip, 0), at(near, -1))
    if dx:
        return outline, (), _words(stub, x + dx * (along + 0.8), y, "start" if dx > 0 else "end")
    return outline, (), _words(stub, x + across / 2 + 0.8, y + dy * along / 2, "start")


def numerals(numbers: tuple[int, ...]) -> str:
    """"3", "3,7", and three or more in a row as "15-20"."""
    row = len(numbers) > 2 and numbers == tuple(range(numbers[0], numbers[0] + len(numbers)))
    return f"{numbers[0]}-{numbers[-1]}" if row else ",".join(str(number) for number in numbers)


def flag_outline(severity: str, at: Point, text: str) -> tuple[Point, ...]:
    """Corners of a danger's triangle, a warning's diamond, a notice's disc (the box round it).

    `at` is the middle of their height and width.
    """
    (x, y), wide, half = at, width(text, SIZE, bold=True), FLAG / 2
    if severity == "danger":
        reach = max(5.8, (wide + 0.3) / (1 - 2.4 / FLAG)) / 2
        return ((x, y - half), (x + reach, y + half), (x - reach, y + half))
    if severity == "warning":
        reach = max(half, (wide + 0.3) / 2 / (1 - CAPS / FLAG))
        return ((x, y - half), (x + reach, y), (x, y + half), (x - reach, y))
    reach, half = max(DISC, wide + 1.8) / 2, DISC / 2
    return ((x - reach, y - half), (x + reach, y - half), (x + reach, y + half), (x - reach, y + half))


def flag_text(severity: str, at: Point, text: str) -> Text:
    """The number, in the middle of a diamond or disc, near the foot of a triangle."""
    base = at[1] + FLAG / 2 - 0.55 if severity == "danger" else at[1] + CAPS / 2
    return Text(at[0], base, text, SIZE, "flag", "middle", bold=True)


def flag_box(flag: Flag) -> Box:
    return bound(*flag_outline(flag.severity, flag.at, numerals(flag.numbers)))


def stroke_text(at: Point, vertical: bool, text: str) -> Text:
    """The number beside a stroke across a line: right of a vertical line, above a horizontal one."""
    if vertical:
        return Text(at[0] + STROKE + 0.3, at[1] + CAPS / 2, text, SIZE, "wire")
    return Text(at[0] + STROKE + 0.1, at[1] - 0.7, text, SIZE, "wire")


def stroke_box(at: Point, vertical: bool, text: str) -> Box:
    """Room of such a stroke with its number."""
    words = text_box(stroke_text(at, vertical, text))
    corners = ((words.x, words.y), (words.x + words.width, words.y + words.height)) if text else ()
    return bound((at[0] - STROKE, at[1] - STROKE), (at[0] + STROKE, at[1] + STROKE), *corners)
