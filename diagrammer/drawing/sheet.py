"""One sheet of a scene as groups of elements: what is read first stands first, flags lie on top.

Groups bear the names of nodes and circuits, and the roles of the WAI-ARIA Graphics Module (W3C, 2018).
"""

from __future__ import annotations

from diagrammer.drawing import mark
from diagrammer.drawing.svg import Element, element, number, points
from diagrammer.drawing.symbol import draw
from diagrammer.drawing.words import Words
from diagrammer.layout.scene import Bar, Line, Shape, Sheet

SYMBOL = "graphics-symbol img"


class Ids:
    """Ids of one sheet, each once: "s1-node-bank", and "-2" after a second of the name."""

    def __init__(self, sheet: int):
        self.sheet, self.given = sheet, set()

    def __call__(self, sort: str, name: str) -> str:
        plain = "".join(c if c.isalnum() or c in "-_." else "-" for c in name)
        wanted = base = f"s{self.sheet}-{sort}-{plain}"
        again = 1
        while wanted in self.given:
            again += 1
            wanted = f"{base}-{again}"
        self.given.add(wanted)
        return wanted


def groups(sheet: Sheet) -> list[Element]:
    """All groups of a sheet, in the order they are read and painted."""
    ids, words = Ids(sheet.number), Words(sheet)
    return [group for group in (
        _group("frame", [*_rules(sheet), *words.of("group", "frame")], aria_hidden="true"),
        _named("title-block", "Title block", words.of("group", "title-block")),
        _group("caution", words.of("group", "caution")),
        _named("findings", "Findings", [
            *words.of("group", "findings"),
            *(mark.row(row, words.of("row", row.number), ids("row", str(row.number))) for row in sheet.rows),
        ]),
        _named("circuits", "Circuits", _circuits(sheet, ids, words)),
        _named("nodes", "Nodes", [
            *(_bar(bar, ids, words) for bar in sheet.bars), *(_shape(shape, ids, words) for shape in sheet.shapes),
        ]),
        _group("stubs", [mark.stub(stub, ids("stub", stub.id)) for stub in sheet.stubs]),
        _group("labels", words.of("group", "labels")),
        _named("legend", "Legend", [
            *words.of("group", "legend"), *(_legend(shape) for shape, _ in sheet.legend),
            *(element("path", class_=f"{key.weight}-line line", d=points(key.points)) for key in sheet.keys),
        ]),
        _named("flags", "Flags", [
            mark.flag(flag, ids("flag", "-".join(map(str, flag.numbers)))) for flag in sheet.flags
        ]),
    ) if group.children]


def _group(name: str, children: list, **attributes: object) -> Element:
    return element("g", *children, class_=name, **attributes)


def _named(name: str, label: str, children: list) -> Element:
    return _group(name, children, role="graphics-object group", aria_label=label)


def _rules(sheet: Sheet) -> list[Element]:
    """Lines of frame and tables, those of one weight in one path."""
    weights: dict[float, list[str]] = {}
    for start, end, weight in sheet.rules:
        weights.setdefault(weight, []).append(points((start, end)))
    return [
        element("path", class_="rule", d="".join(data), stroke_width=weight, stroke_linecap="square")
        for weight, data in weights.items()
    ]


def _circuits(sheet: Sheet, ids: Ids, words: Words) -> list[Element]:
    circuits: dict[str, list[Line]] = {}
    for line in sheet.lines:
        circuits.setdefault(line.circuit, []).append(line)
    return [
        element("g", *(_line(line, ids, words) for line in lines), class_="circuit", data_circuit=name,
                id=ids("circuit", name), role="graphics-object group", aria_label=f"circuit {name}")
        for name, lines in circuits.items()
    ]


def _line(line: Line, ids: Ids, words: Words) -> Element:
    severity = f"{line.fault}-edge {line.fault}-line " if line.fault else ""
    return element(
        "g", _title(line.title),
        element("path", class_=f"{severity}{line.weight}-line line", d=points(line.points)),
        *(element("circle", class_="solid", cx=float(x), cy=float(y), r=0.6) for x, y in line.dots),
        *(piece for at, count in line.marks for piece in mark.count(at, _vertical(line, at), count)),
        *words.of("cable", line.cable),
        id=ids("cable", line.cable or f"{line.circuit}-joint"), data_cable=line.cable,
        data_line=line.line or None, data_severity=line.fault,
    )


def _vertical(line: Line, at) -> bool:
    """Whether the run at that point goes up and down."""
    for (ax, ay), (bx, by) in zip(line.points, line.points[1:]):
        if ax == bx and abs(at[0] - ax) < 0.01 and min(ay, by) <= at[1] <= max(ay, by):
            return True
    return False


def _bar(bar: Bar, ids: Ids, words: Words) -> Element:
    path = element("path", class_="bar", d=points((bar.start, bar.end)), stroke_width=float(bar.thickness))
    return _node(bar, [path], ids, words)


def _shape(shape: Shape, ids: Ids, words: Words) -> Element:
    return _node(shape, draw(shape), ids, words)


def _node(thing: Bar | Shape, strokes: list[Element], ids: Ids, words: Words) -> Element:
    """A symbol or bar with its words."""
    return element(
        "g", _title(thing.title), *strokes, *words.of("node", thing.node), class_="node", data_node=thing.node,
        data_line=thing.line or None, id=ids("node", thing.node), role=SYMBOL, aria_label=thing.title or thing.node,
    )


def _legend(shape: Shape) -> Element:
    """A picture without a name: its words stand beside it."""
    return element("g", *draw(shape), aria_hidden="true")


def _title(words: str) -> Element | None:
    return element("title", words) if words else None
