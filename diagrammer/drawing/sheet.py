"""One sheet of a scene as groups of elements, from the paper up: frame, lines, bars, symbols, words, flags."""

from __future__ import annotations

from diagrammer.drawing import mark
from diagrammer.drawing.svg import Element, element, number, points
from diagrammer.drawing.symbol import draw
from diagrammer.layout.scene import Bar, Line, Shape, Sheet, Text

CLASSES = {"wire": "wire-text", "caption": "caption"}


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
    """All groups of a sheet, in the order they are painted."""
    ids = Ids(sheet.number)
    return [group for group in (
        _group("frame", [*_rules(sheet)]),
        _group("circuits", _circuits(sheet, ids)),
        _group("nodes", [*(_bar(bar, ids) for bar in sheet.bars), *(_shape(shape, ids) for shape in sheet.shapes)]),
        _group("stubs", [mark.stub(stub, ids("stub", stub.id)) for stub in sheet.stubs]),
        _group("labels", [_text(line) for line in sheet.texts]),
        _group("legend", [
            *(_legend(shape, says) for shape, says in sheet.legend),
            *(element("path", class_=f"line {key.weight}", d=points(key.points)) for key in sheet.keys),
        ]),
        _group("findings", [mark.row(row, ids("row", str(row.number))) for row in sheet.rows]),
        _group("flags", [mark.flag(flag, ids("flag", "-".join(map(str, flag.numbers)))) for flag in sheet.flags]),
    ) if group.children]


def _group(name: str, children: list) -> Element:
    return element("g", *children, class_=name)


def _rules(sheet: Sheet) -> list[Element]:
    """Lines of frame and tables, those of one weight in one path."""
    weights: dict[float, list[str]] = {}
    for start, end, weight in sheet.rules:
        weights.setdefault(weight, []).append(points((start, end)))
    return [
        element("path", class_="rule", d="".join(data), stroke_width=weight, stroke_linecap="square")
        for weight, data in weights.items()
    ]


def _circuits(sheet: Sheet, ids: Ids) -> list[Element]:
    circuits: dict[str, list[Line]] = {}
    for line in sheet.lines:
        circuits.setdefault(line.circuit, []).append(line)
    return [
        element("g", *(_line(line, ids) for line in lines), class_="circuit", data_circuit=name,
                id=ids("circuit", name))
        for name, lines in circuits.items()
    ]


def _line(line: Line, ids: Ids) -> Element:
    severity = f" {line.fault}" if line.fault else ""
    return element(
        "g", _title(line.title),
        element("path", class_=f"line {line.weight}{severity}", d=points(line.points)),
        *(element("circle", class_="solid", cx=float(x), cy=float(y), r=0.6) for x, y in line.dots),
        *(piece for at, words in line.marks for piece in mark.count(at, _vertical(line, at), words)),
        id=ids("cable", line.cable), data_cable=line.cable, data_line=line.line or None, data_severity=line.fault,
    )


def _vertical(line: Line, at) -> bool:
    """Whether the run at that point goes up and down."""
    for (ax, ay), (bx, by) in zip(line.points, line.points[1:]):
        if ax == bx and abs(at[0] - ax) < 0.01 and min(ay, by) <= at[1] <= max(ay, by):
            return True
    return False


def _bar(bar: Bar, ids: Ids) -> Element:
    return element(
        "g", _title(bar.title),
        element("path", class_="bar", d=points((bar.start, bar.end)), stroke_width=float(bar.thickness)),
        class_="node", data_node=bar.node, data_line=bar.line or None, id=ids("node", bar.node),
    )


def _shape(shape: Shape, ids: Ids) -> Element:
    return element("g", _title(shape.title), *draw(shape), class_="node", data_node=shape.node,
                   data_line=shape.line or None, id=ids("node", shape.node))


def _legend(shape: Shape, says: str) -> Element:
    return element("g", _title(says), *draw(shape))


def _title(words: str) -> Element | None:
    return element("title", words) if words else None


def _text(line: Text) -> Element:
    written = mark.text(line, CLASSES.get(line.role, ""))
    return element("g", written, class_="label", data_node=line.owner) if line.owner else written
