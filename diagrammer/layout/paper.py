"""The empty sheet: its size, frame, and the grid of zones by which places on it are named (ISO 5457)."""

from __future__ import annotations

from functools import cache

from diagrammer.frozen import frozen
from diagrammer.layout.scene import Box, Point, Text
from diagrammer.tables.load import load

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # downwards; ISO 5457 leaves out I and O
FRAME, GRID = 0.7, 0.35  # [mm] line weights
BORDER = 5.0  # [mm] the strip outside the frame that holds letters and numbers
MARK = 5.0  # [mm] how far a centring mark reaches into the drawing
NARROW = 15.0  # [mm] a field at the edge is no narrower
SIZE = 4.2  # [mm] font size of letters and numbers

Rule = tuple[Point, Point, float]


@frozen
class Paper:
    """A sheet. `across`, `down` [mm]: where one zone ends and the next begins, from edge to edge."""

    size: str
    width: float
    height: float
    frame: Box
    across: tuple[float, ...]
    down: tuple[float, ...]


@cache
def paper(size: str) -> Paper:
    """A sheet of that size, landscape. Raises ValueError for a size that is not in the table."""
    row = next((row for row in load("sheets") if row["size"] == size), None)
    if row is None:
        raise ValueError(f"no sheet size {size!r}")
    width, height, left, edge, field = (float(row[name]) for name in ("width", "height", "left", "edge", "field"))
    frame = Box(left, edge, width - left - edge, height - 2 * edge)
    across = _zones(width / 2, field, left, width - edge)
    return Paper(size, width, height, frame, across, _zones(height / 2, field, edge, height - edge))


def _zones(middle: float, field: float, low: float, high: float) -> tuple[float, ...]:
    """Ends of fields counted from the middle; what is left at the edge and too narrow belongs to
    its neighbour."""
    ends = (middle + n * field for n in range(-9, 10))
    return (low, *(end for end in ends if low + NARROW < end < high - NARROW), high)


def zone(sheet: Paper, point: Point) -> str:
    """The field a point lies in, "C6"; a point outside the frame belongs to the nearest field."""
    return f"{LETTERS[_index(sheet.down, point[1])]}{_index(sheet.across, point[0]) + 1}"


def _index(ends: tuple[float, ...], at: float) -> int:
    return sum(1 for end in ends[1:-1] if end <= at)


def frame_rules(sheet: Paper, taken: tuple[Box, ...] = ()) -> tuple[Rule, ...]:
    """Frame, the strip round it with its divisions, and the centring marks.

    The marks reach into the drawing, but not into the boxes that are `taken`.
    """
    box, out = sheet.frame, _grown(sheet.frame, BORDER)
    left, top, right, bottom = box.x, box.y, box.x + box.width, box.y + box.height
    rules = [*outline(box, FRAME), *outline(out, GRID)]
    rules += [((x, y), (x, y + BORDER), GRID) for x in sheet.across[1:-1] for y in (top - BORDER, bottom)]
    rules += [((x, y), (x + BORDER, y), GRID) for y in sheet.down[1:-1] for x in (left - BORDER, right)]
    x, y = sheet.width / 2, sheet.height / 2
    for at, (dx, dy) in (((x, top), (0, 1)), ((x, bottom), (0, -1)), ((left, y), (1, 0)), ((right, y), (-1, 0))):
        end = (at[0] + dx * MARK, at[1] + dy * MARK)
        inner = at if any(_holds(box, end) for box in taken) else end
        rules.append(((at[0] - dx * BORDER, at[1] - dy * BORDER), inner, FRAME))
    return tuple(rules)


def frame_texts(sheet: Paper) -> tuple[Text, ...]:
    """Numbers above and below, letters left and right."""
    box, low = sheet.frame, SIZE * 0.36  # half the height of a capital, about
    texts = []
    for index, (a, b) in enumerate(zip(sheet.across, sheet.across[1:])):
        for y in (box.y - BORDER / 2, box.y + box.height + BORDER / 2):
            texts.append(Text((a + b) / 2, y + low, str(index + 1), SIZE, "frame", "middle"))
    for index, (a, b) in enumerate(zip(sheet.down, sheet.down[1:])):
        for x in (box.x - BORDER / 2, box.x + box.width + BORDER / 2):
            texts.append(Text(x, (a + b) / 2 + low, LETTERS[index], SIZE, "frame", "middle"))
    return tuple(texts)


def outline(box: Box, weight: float) -> tuple[Rule, ...]:
    """The four lines of a box."""
    left, top, right, bottom = box.x, box.y, box.x + box.width, box.y + box.height
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return tuple((a, b, weight) for a, b in zip(corners, corners[1:] + corners[:1]))


def _holds(box: Box, point: Point) -> bool:
    return box.x <= point[0] <= box.x + box.width and box.y <= point[1] <= box.y + box.height


def _grown(box: Box, by: float) -> Box:
    return Box(box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by)
