"""A block: shapes round an origin, with the room they take. Blocks are put into blocks."""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.layout.scene import Bar, Line, Point, Shape, Stub, Text
from diagrammer.layout.tags import stroke_box, tag, text_extent
from diagrammer.symbols.symbol import Symbol

Item = Shape | Bar | Line | Text | Stub
Extent = tuple[float, float, float, float]  # left, top, right, bottom


@frozen
class Tail:
    """The lower end of a line that goes on to what gathers it."""

    x: float
    y: float
    key: tuple
    line: Line | None
    chain: int = -1


class Block:
    """items and children with their places; boxes: the room taken, for packing."""

    __slots__ = ("items", "children", "boxes", "left", "top", "right", "bottom", "tails", "posts", "parts", "lead", "wing")

    def __init__(self) -> None:
        self.items: list[Item] = []
        self.children: list[tuple[Block, float, float]] = []
        self.boxes: list[Extent] = []
        self.left = self.top = self.right = self.bottom = 0.0
        self.tails: list[Tail] = []
        self.posts: list = []  # ends of links to be drawn straight across (bridge.Post)
        self.parts: list[Block] = []  # further parts of a bar in it that outgrew a sheet: they stand apart
        self.lead = 0.0  # straight line wanted before the origin, for words beside it
        self.wing = False  # what stands above the origin lies beside the line that leads to it

    def room(self, left: float, top: float, right: float, bottom: float) -> None:
        self.boxes.append((left, top, right, bottom))
        self.left, self.top = min(self.left, left), min(self.top, top)
        self.right, self.bottom = max(self.right, right), max(self.bottom, bottom)

    def add(self, item: Item) -> None:
        self.items.append(item)
        made = boxes_of(item)
        self.boxes += made
        for left, top, right, bottom in made:
            if left < self.left:
                self.left = left
            if top < self.top:
                self.top = top
            if right > self.right:
                self.right = right
            if bottom > self.bottom:
                self.bottom = bottom

    def put(self, child: Block, x: float, y: float) -> None:
        self.children.append((child, x, y))
        self.left, self.top = min(self.left, x + child.left), min(self.top, y + child.top)
        self.right, self.bottom = max(self.right, x + child.right), max(self.bottom, y + child.bottom)
        self.tails += [Tail(t.x + x, t.y + y, t.key, t.line and move(t.line, x, y), t.chain) for t in child.tails]
        self.posts += [post.moved(x, y) for post in child.posts]
        self.parts += child.parts

    def lowest(self, left: float, right: float, x: float = 0.0, y: float = 0.0) -> float:
        """The lowest edge of anything between two heights of x."""
        low = max((b + y for l, _, r, b in self.boxes if l + x < right and r + x > left), default=-1e9)
        for child, dx, dy in self.children:
            if child.left + x + dx < right and child.right + x + dx > left:
                low = max(low, child.lowest(left, right, x + dx, y + dy))
        return low

    def highest(self, left: float, right: float, x: float = 0.0, y: float = 0.0) -> float:
        high = min((t + y for l, t, r, _ in self.boxes if l + x < right and r + x > left), default=1e9)
        for child, dx, dy in self.children:
            if child.left + x + dx < right and child.right + x + dx > left:
                high = min(high, child.highest(left, right, x + dx, y + dy))
        return high

    def extents(self, x: float = 0.0, y: float = 0.0) -> list[Extent]:
        """Every box, children's too."""
        made = [(l + x, t + y, r + x, b + y) for l, t, r, b in self.boxes]
        for child, dx, dy in self.children:
            made += child.extents(x + dx, y + dy)
        return made

    def flat(self, x: float = 0.0, y: float = 0.0) -> list[Item]:
        made = [move(item, x, y) for item in self.items]
        for child, dx, dy in self.children:
            made += child.flat(x + dx, y + dy)
        return made

    def every(self) -> list[Item]:
        """Every item, children's too, none moved to its place."""
        made = list(self.items)
        for child, _, _ in self.children:
            made += child.every()
        return made


def boxes_of(item: Item) -> list[Extent]:
    """The room an item takes: a line that of its segments."""
    return ROOM[type(item)](item)


def _stub_room(stub: Stub) -> list[Extent]:
    box = tag(stub).box
    return [(box.x, box.y, box.x + box.width, box.y + box.height)]


def _shape_room(shape: Shape) -> list[Extent]:
    left, top, right, bottom = turned(shape.symbol.strokes_box, shape.turn)
    return [(shape.x + left, shape.y + top, shape.x + right, shape.y + bottom)]


def _bar_room(bar: Bar) -> list[Extent]:
    (x1, y1), (x2, y2), half = bar.start, bar.end, bar.thickness / 2
    return [(min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half)]


def _line_room(line: Line) -> list[Extent]:
    made, points = [], line.points
    for (x1, y1), (x2, y2) in zip(points, points[1:]):
        left, right = (x1, x2) if x1 < x2 else (x2, x1)
        top, bottom = (y1, y2) if y1 < y2 else (y2, y1)
        made.append((left - 0.2, top - 0.2, right + 0.2, bottom + 0.2))
    for at, text in line.marks:
        box = stroke_box(at, _vertical_at(line, at), text)
        made.append((box.x, box.y, box.x + box.width, box.y + box.height))
    return made


ROOM = {
    Text: lambda text: [text_extent(text)], Stub: _stub_room, Shape: _shape_room, Bar: _bar_room, Line: _line_room,
}


def tight(symbol: Symbol) -> Extent:
    """What the strokes of a symbol really cover round its centre."""
    return symbol.strokes_box


def turned(box: Extent, turn: int) -> Extent:
    left, top, right, bottom = box
    if turn == 90:
        return -bottom, left, -top, right
    if turn == 180:
        return -right, -bottom, -left, -top
    return (top, -right, bottom, -left) if turn == 270 else box


def _vertical_at(line: Line, at: Point) -> bool:
    for (x1, y1), (x2, y2) in zip(line.points, line.points[1:]):
        if min(x1, x2) - 0.01 <= at[0] <= max(x1, x2) + 0.01 and min(y1, y2) - 0.01 <= at[1] <= max(y1, y2) + 0.01:
            return x1 == x2
    return True


def move(item: Item, dx: float, dy: float) -> Item:
    if dx == 0 and dy == 0:
        return item
    kind = type(item)
    if kind is Text:
        return Text(item.x + dx, item.y + dy, item.text, item.size, item.role, item.anchor, item.bold, item.owner)
    if kind is Shape:
        return Shape(item.node, item.symbol, item.x + dx, item.y + dy, item.turn, item.title, item.line)
    if kind is Bar:
        start, end = _shift(item.start, dx, dy), _shift(item.end, dx, dy)
        return Bar(item.node, start, end, item.thickness, item.title, item.line)
    if kind is Stub:
        at = _shift(item.at, dx, dy)
        return Stub(item.id, at, item.side, item.text, item.form, item.node, item.partner, item.weight)
    return Line(
        item.circuit, item.cable, tuple(_shift(p, dx, dy) for p in item.points), item.weight, item.title, item.line,
        item.fault, tuple(_shift(p, dx, dy) for p in item.dots),
        tuple((_shift(p, dx, dy), text) for p, text in item.marks),
    )


def _shift(point: Point, dx: float, dy: float) -> Point:
    return point[0] + dx, point[1] + dy
