"""Sheets of findings: every row once and in order, nothing on anything else, and said where it goes on."""

from __future__ import annotations

from pathlib import Path

import pytest

from diagrammer import pipeline
from diagrammer.layout import findings_sheet, findings_table, sheet
from diagrammer.layout.draw import draw
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.paper import paper
from diagrammer.lettering.width import SMALLEST, width
from diagrammer.symbols import find

SAMPLE = Path(__file__).parents[2] / "samples" / "workboat-12v.yaml"
SIZES = ("A3", "A4", "Letter", "Tabloid")
COLUMNS = {"A3": 2, "A4": 1, "Letter": 1, "Tabloid": 2}  # 180 mm each, in frames of 390, 267, 249 and 402 mm
LONG = "a finding that takes more words than one line of the column has room for, so that it goes on in a second one"


def rows(count: int) -> list:
    return [sheet.row(n, ("danger", "warning", "notice")[n % 3], "1.B2", "rule", LONG * (1 + n % 2)) for n in range(1, count + 1)]


def made(size: str, count: int) -> list:
    every = findings_sheet.spread(size, rows(count))
    last = 1 + len(every.sheets)
    return [findings_sheet.findings_sheet(size, n, last, {"title": "Cabin"}, every) for n in range(2, last + 1)]


def headings(furniture) -> list[tuple[str, str]]:
    """The words at the beginning and at the end of each column's heading."""
    told = [text for text in furniture.texts if text.role == "findings" and not text.row]
    return [(first.text, second.text) for first, second in zip(told[::2], told[1::2])]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("count", [1, 2, 3, 20, 43, 150])
def test_every_row_stands_once_in_order_inside_the_frame(size, count):
    sheets = made(size, count)
    assert [row.number for one in sheets for row in one.rows] == list(range(1, count + 1))
    frame = paper(size).frame
    for one in sheets:
        assert len(one.taken) - 1 <= COLUMNS[size]
        for box in one.taken:
            assert frame.x <= box.x + 1e-6 and box.x + box.width <= frame.x + frame.width + 1e-6
            assert frame.y <= box.y + 1e-6 and box.y + box.height <= frame.y + frame.height + 1e-6
        for a in one.taken:
            for b in one.taken:
                assert a is b or a.x + a.width <= b.x or b.x + b.width <= a.x or a.y + a.height <= b.y or b.y + b.height <= a.y


def test_columns_of_the_last_sheet_are_level():
    left, right = made("A3", 43)[-1].taken[1:]
    assert 0 <= left.height - right.height < 3 * findings_table.row_height(rows(1)[0])


def test_a_table_on_one_sheet_says_how_many():
    only, = made("A3", 9)
    assert headings(only) == [("Findings", "3 dangers, 3 warnings, 3 notices"), ("Findings, continued", " ")]


def test_a_table_on_several_sheets_says_where_it_goes_on():
    first, second, *_, last = tall = made("A4", 60)
    assert headings(first)[0][0] == "Findings"
    assert headings(second) == [("Findings, continued", "from sheet 2, continued on sheet 4")]
    assert headings(last) == [("Findings, continued", f"from sheet {len(tall)}")]
    wide = made("A3", 150)
    assert headings(wide[0])[1] == ("Findings, continued", "continued on sheet 3")
    assert headings(wide[1])[0] == ("Findings, continued", "from sheet 2")


def test_one_columns_first_sheet_says_both():
    assert headings(made("A4", 60)[0]) == [("Findings", "20 dangers, 20 warnings, 20 notices, continued on sheet 3")]


@pytest.mark.parametrize("numbers, here, said", [
    ((), True, ""), ((2,), False, "Findings: sheet 2"), ((2, 3), True, "More findings: sheets 2 and 3"),
    ((2, 3, 4), False, "Findings: sheets 2, 3 and 4"),
])
def test_a_drawing_says_where_its_findings_are(numbers, here, said):
    assert findings_sheet.reference(numbers, here) == said


def test_that_note_has_room_beside_the_caution():
    note = findings_sheet.reference(range(12, 20), True)
    made = sheet.furnish("A4", 1, 9, {}, note=note)
    *_, last, beside = (text for text in made.texts if text.role == "caution")
    assert beside.text == note and beside.y == last.y
    assert last.x + width(last.text, SMALLEST) + 2 < beside.x - width(note, SMALLEST, bold=True)


@pytest.mark.parametrize("size", ["", "A3", "A4"])
def test_a_finding_without_a_place_is_listed_once(size):
    system = pipeline.load(SAMPLE).system
    drawn = draw(system, (Mark(1, "notice", "some-rule", "It is about the whole.", (), ()),), Options(size, engine="own"))
    listed = [row for one in drawn.sheets for row in one.rows]
    assert [(row.rule, row.zone) for row in listed] == [("some-rule", "")]
    assert len(drawn.sheets) == len(draw(system, (), Options(size, engine="own")).sheets)


def test_a_wide_drawing_without_a_frame_keeps_legend_and_findings():
    """It is wider than any sheet."""
    system = pipeline.load(SAMPLE).system
    mark = Mark(1, "notice", "some-rule", "It is about the meter.", ("meter",))
    only, = draw(system, (mark,), Options("", engine="own")).sheets
    assert only.width > 420 and only.legend
    assert [row.number for row in only.rows] == [1]


def crowded(size: str = "A4"):
    """A drawing whose first sheet has no room for the findings on it, while a later one has."""
    system = pipeline.load(SAMPLE.parent / "faulty" / "missing-protection.yaml").system
    return draw(system, (Mark(1, "danger", "some-rule", LONG, ("bank",)),), Options(size, engine="own"))


def test_a_finding_goes_to_another_drawing_where_its_own_has_no_room():
    first, *others = crowded().sheets
    host, = (one for one in others if one.rows)
    assert first.flags and not first.rows and all(one.shapes for one in others)
    assert [row.zone[:2] for row in host.rows] == ["1."]
    assert f"Findings: sheet {host.number}" in " ".join(text.text for text in first.texts)
    assert "Findings" in {text.text for text in host.texts if text.role == "findings"}


def test_what_a_sheet_has_no_room_to_explain_another_explains():
    drawn = draw(pipeline.load(SAMPLE.parent / "bird-observatory-48v.yaml").system, (), Options("A4", engine="own"))
    assert not all(one.legend for one in drawn.sheets)
    known = {says for one in drawn.sheets for _, says in one.legend}
    assert {shape.symbol.says for one in drawn.sheets for shape in one.shapes} <= known
    for one in drawn.sheets:
        assert one.legend or any("Legend: sheet" in text.text for text in one.texts)


def test_a_sheet_of_findings_takes_the_legend_of_a_full_drawing():
    symbols = [find(name) for name in ("fuse", "battery", "load")]
    every = findings_sheet.spread("A4", rows(9), symbols, ("dc",))
    only = findings_sheet.findings_sheet("A4", 2, 2, {}, every)
    assert {says for _, says in only.legend} == {symbol.says for symbol in symbols}
    assert not findings_sheet.spread("A4", rows(9)).symbols
