"""What is put on the drawing to speak of it: flags, stubs, strokes that count conductors."""

from __future__ import annotations

from diagrammer.drawing.svg import Element, element, number, points
from diagrammer.layout import tags
from diagrammer.layout.scene import Flag, Point, Row, Stub, Text

ANCHORS = {"start": None, "middle": "middle", "end": "end"}


def text(line: Text, class_: str = "") -> Element:
    """One line of text as it stands in the scene."""
    classes = " ".join(word for word in (class_, "bold" if line.bold else "", "words") if word)
    return element("text", line.text, class_=classes, x=float(line.x), y=float(line.y), font_size=float(line.size),
                   text_anchor=ANCHORS[line.anchor])


def badge(severity: str, at: Point, numbers: tuple[int, ...], accepted: bool) -> list[Element]:
    """The shape of a severity with its numbers, hollow where accepted."""
    words = tags.numerals(numbers)
    corners = tags.flag_outline(severity, at, words)
    path = _disc(corners) if severity == "notice" else points(corners, closed=True)
    shape, numeral = ("hollow", f"{severity}-numeral") if accepted else ("mark", "numeral")
    number_ = text(tags.flag_text(severity, at, words), numeral)
    return [element("path", class_=f"{severity}-{shape} mark", d=path), number_]


def _disc(corners: tuple[Point, ...]) -> str:
    """A disc, drawn out sideways where the box is wider than it is high."""
    (left, top), (right, _), (_, bottom), _ = corners
    radius = (bottom - top) / 2
    half = f"A{number(radius)} {number(radius)} 0 0 1 "
    near, far, high, low = (number(value) for value in (left + radius, right - radius, top, bottom))
    return f"M{near} {high}L{far} {high}{half}{far} {low}L{near} {low}{half}{near} {high}Z"


def flag(mark: Flag, id_: str) -> Element:
    """Outline of the faulty thing, leader, shape and number."""
    box = mark.box
    outline = element("rect", class_=f"{mark.severity}-edge outline", x=float(box.x), y=float(box.y), width=float(box.width),
                      height=float(box.height), rx=0.8) if box else None
    named = f"{mark.severity} {tags.numerals(mark.numbers)}: {', '.join(mark.rules)}"
    leader = element("path", class_=f"{mark.severity}-edge leader", d=points(mark.leader)) if mark.leader else None
    return element(
        "g", element("title", "; ".join((named, *(f"path: {path}" for path in mark.paths)))),
        outline, leader, *badge(mark.severity, mark.at, mark.numbers, mark.accepted),
        class_=_class("flag", mark), id=id_, role="graphics-symbol img", data_rule=mark.rules, data_severity=mark.severity,
    )


def row(entry: Row, words: list[Element], id_: str) -> Element | None:
    """One row of the findings table: its mark and its words."""
    if entry.at is None:
        return None
    name = f"{entry.severity} {entry.number}" + (", accepted" if entry.accepted else "")
    badges = badge(entry.severity, entry.at, (entry.number,), entry.accepted)
    return element("g", element("title", name), *badges, *words,
                   class_=_class("row", entry), id=id_, data_rule=entry.rule, data_severity=entry.severity)


def _class(name: str, mark: Flag | Row) -> str:
    return f"{name} {mark.severity}" + (" accepted" if mark.accepted else "")


def stub(end: Stub, id_: str) -> Element:
    """The end of an interrupted line: lead, tag, words."""
    tag = tags.tag(end)
    weight = f"{end.weight}-line" if end.weight else {"earth": "", "return": "return-line"}.get(end.form, "dc-line")
    box = "reference tag" if end.form in ("to", "from") else "tag"
    return element(
        "g", element("title", f"{end.form} {end.text}"),
        element("path", class_="tag" if end.weight == "signal" else f"{weight} line".strip(), d=points(tag.lead)),
        element("path", class_=box, d=points(tag.outline, closed=True)) if tag.outline else None,
        *(element("path", class_="stroke", d=points(stroke)) for stroke in tag.strokes),
        text(tag.text), class_=f"label stub {end.form}", id=id_, data_node=end.node, data_partner=end.partner,
    )


def count(at: Point, vertical: bool, number_: str) -> list[Element]:
    """A stroke across a line: so many conductors in one."""
    (x, y), reach = at, tags.STROKE
    slash = element("path", class_="stroke", d=points(((x - reach, y + reach), (x + reach, y - reach))))
    return [slash, text(tags.stroke_text(at, vertical, number_), "wire-text")] if number_ else [slash]
