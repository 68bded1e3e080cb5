"""A finished drawing as plain shapes in millimetres on sheets: what layout promises to writers.

x to the right, y downwards, from the sheet's upper left corner. A writer needs nothing else; the
gates (gates.py) are computed on it.
"""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.symbols.symbol import Symbol

Point = tuple[float, float]


@frozen
class Box:
    x: float
    y: float
    width: float
    height: float


@frozen
class Text:
    """One line of text. `size` [mm] is the font size (capitals are lettering.width.CAPITALS of
    it; never below lettering.width.SMALLEST), `anchor` start, middle or end; (x, y) lies on the
    base line. role: designation, name, value, wire, reference, title, caption, findings, caution,
    legend, frame, note. owner: the node or cable it speaks of. row: the number of the finding it tells."""

    x: float
    y: float
    text: str
    size: float
    role: str
    anchor: str = "start"
    bold: bool = False
    owner: str = ""
    row: int = 0


@frozen
class Shape:
    """A node drawn by a symbol, its centre at (x, y), turned clockwise by 0, 90, 180, 270."""

    node: str
    symbol: Symbol
    x: float
    y: float
    turn: int = 0
    title: str = ""  # what a pointer resting on it reads
    line: int = 0  # of the netlist


@frozen
class Bar:
    """A bar, panel or other straight thick line that circuits tap: the long middle line."""

    node: str
    start: Point
    end: Point
    thickness: float
    title: str = ""
    line: int = 0


@frozen
class Line:
    """A conductor or joint, as a run of right-angled points. weight: "dc", "ac", "earth",
    "return", "fault", "signal" (sense and control leads). fault: the severity, "" where sound."""

    circuit: str
    cable: str
    points: tuple[Point, ...]
    weight: str
    title: str = ""
    line: int = 0
    fault: str = ""
    dots: tuple[Point, ...] = ()  # where three lines meet off a bar
    marks: tuple[tuple[Point, str], ...] = ()  # a stroke across with a number: conductors in one line


@frozen
class Stub:
    """A return, bond or interrupted line that ends in a tag: the name of where it lands. `at` is
    where it leaves the symbol or line; tags.tag draws lead and tag from there.
    form: "return", "earth", "to" and "from" (a pair of references, `partner` the other's id).
    weight: of the line it ends, as a Line's; "" the usual one of its form."""

    id: str
    at: Point
    side: str  # which way it points: up, down, left, right
    text: str
    form: str
    node: str = ""
    partner: str = ""
    weight: str = ""


@frozen
class Flag:
    """The mark of one or several findings at one place. `numbers` as in the table; `box` is the
    outline of the faulty thing, if it has one; the leader joins flag and thing if they are apart. paths: the ways
    from the source to it, in words, shown where a pointer rests on it."""

    numbers: tuple[int, ...]
    severity: str
    at: Point
    rules: tuple[str, ...]
    box: Box | None = None
    leader: tuple[Point, ...] = ()
    accepted: bool = False
    paths: tuple[str, ...] = ()


@frozen
class Row:
    """One row of the findings table: number, severity, zone of the sheet, rule, text lines."""

    number: int
    severity: str
    zone: str
    rule: str
    text: tuple[str, ...]
    accepted: bool = False
    at: Point | None = None  # where its mark stands; the words are texts of the sheet, role "findings"


@frozen
class Sheet:
    """One sheet. width, height [mm]; `frame` empty for a frameless drawing."""

    number: int
    count: int
    size: str  # A3, A4, Letter, Tabloid, or "" where frameless
    width: float
    height: float
    title: str
    shapes: tuple[Shape, ...] = ()
    bars: tuple[Bar, ...] = ()
    lines: tuple[Line, ...] = ()
    stubs: tuple[Stub, ...] = ()
    texts: tuple[Text, ...] = ()
    flags: tuple[Flag, ...] = ()
    rows: tuple[Row, ...] = ()
    rules: tuple[tuple[Point, Point, float], ...] = ()  # frame and table lines: ends and weight
    legend: tuple[tuple[Shape, str], ...] = ()
    keys: tuple[Line, ...] = ()  # samples of line in the legend, no conductors


@frozen
class Scene:
    """All sheets, and what was said while making them (which engine, what a gate found)."""

    title: str
    description: str
    sheets: tuple[Sheet, ...]
    engine: str = ""
    remarks: tuple[str, ...] = ()
