"""Sheets: sizes, zones, and what stands in the corners, each inside its own box."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

import pytest
from hypothesis import given, strategies as st

from diagrammer.layout import findings_table, legend, paper, sheet, tags, title_block
from diagrammer.layout.scene import Box, Line, Shape
from diagrammer.lettering.width import SMALLEST
from diagrammer.symbols import SYMBOLS, find

SIZES = ("A3", "A4", "Letter", "Tabloid")
every_size = pytest.mark.parametrize("size", SIZES)

MESSAGE = "The fuse lets through 300 A, the conductor behind it may carry 210 A at 45 °C in a bundle of three."
BLOCK = {name: f"{name} of an invented system" for name in title_block.FIELDS if name != "sheet"}


def rows(count: int, message: str = MESSAGE):
    return tuple(
        sheet.row(n + 1, ("danger", "warning", "notice")[n % 3], "C6", "protection-voltage-too-low", message, n == 4)
        for n in range(count)
    )


def inside(inner: Box, outer: Box) -> bool:
    near = 1e-6
    return (outer.x - near <= inner.x and inner.x + inner.width <= outer.x + outer.width + near
            and outer.y - near <= inner.y and inner.y + inner.height <= outer.y + outer.height + near)


def apart(a: Box, b: Box) -> bool:
    near = 1e-6
    return (a.x + a.width <= b.x + near or b.x + b.width <= a.x + near
            or a.y + a.height <= b.y + near or b.y + b.height <= a.y + near)


def test_sizes_of_iso_216():
    assert (paper.paper("A3").width, paper.paper("A3").height) == (420, 297)
    assert (paper.paper("A4").width, paper.paper("A4").height) == (297, 210)
    with pytest.raises(ValueError):
        paper.paper("A7")


def test_number_of_zones():
    """ISO 5457:1999, table 2 (from memory): A3 has 8 by 6 fields, A4 6 by 4."""
    zones = {size: (len(paper.paper(size).across) - 1, len(paper.paper(size).down) - 1) for size in SIZES}
    assert zones["A3"] == (8, 6) and zones["A4"] == (6, 4)


@every_size
def test_zones_are_fifty_millimetres_but_at_the_edges(size):
    across = paper.paper(size).across
    assert {round(b - a, 6) for a, b in zip(across[1:-1], across[2:-1])} == {50}
    assert paper.paper(size).width / 2 in across


def test_zones_count_from_the_upper_left():
    assert sheet.zone("A3", (21, 11)) == "A1"
    assert sheet.zone("A3", (211, 149)) == "D5"
    assert sheet.zone("A3", (409, 286)) == "F8"
    assert sheet.zone("", (10, 10)) == ""


@given(st.sampled_from(SIZES), st.floats(-50, 500), st.floats(-50, 400))
def test_every_point_has_a_zone_without_i_and_o(size, x, y):
    name = sheet.zone(size, (x, y))
    assert name[0] in "ABCDEFGH" and name[1:].isdigit()


@every_size
@pytest.mark.parametrize("count", [0, 1, 9])
def test_words_stand_in_their_boxes_and_apart(size, count):
    made = sheet.furnish(size, 2, 3, BLOCK, rows(count), [find("fuse"), find("bms"), find("rcbo")])
    whole = Box(0, 0, made.width, made.height)
    words = [tags.text_box(text) for text in made.texts]
    assert all(inside(box, whole) for box in words)
    assert all(apart(a, b) for a, b in combinations(words, 2))
    in_taken = [text for text in made.texts if text.role not in ("frame",)]
    assert all(any(inside(tags.text_box(text), box) for box in made.taken) for text in in_taken)
    assert all(apart(a, b) for a, b in combinations(made.taken, 2))
    frame = paper.paper(size).frame
    assert all(inside(box, frame) for box in made.taken)


@every_size
@pytest.mark.parametrize("count", [0, 14])
def test_no_rule_runs_through_words(size, count):
    made = sheet.furnish(size, 1, 1, BLOCK, rows(count), list(SYMBOLS.values())[:12])
    for start, end, _ in made.rules:
        line = Box(min(start[0], end[0]), min(start[1], end[1]), abs(start[0] - end[0]), abs(start[1] - end[1]))
        assert all(apart(line, tags.text_box(text)) for text in made.texts)


@every_size
def test_no_letter_below_the_smallest(size):
    made = sheet.furnish(size, 1, 1, BLOCK, rows(5), list(SYMBOLS.values())[:8])
    assert min(text.size for text in made.texts) >= SMALLEST


def test_words_of_a_row_keep_clear_of_its_mark_and_neighbours():
    made = sheet.furnish("A3", 1, 1, {}, rows(12))
    marks = [Box(*_flag_box(row)) for row in made.rows]
    assert all(apart(a, b) for a, b in combinations(marks, 2))
    words = [tags.text_box(text) for text in made.texts if text.role == "findings"]
    assert all(apart(mark, box) for mark in marks for box in words)
    assert Counter(text.text for text in made.texts)["protection-voltage-too-low"] == 12


def _flag_box(row):
    xs, ys = zip(*tags.flag_outline(row.severity, row.at, str(row.number)))
    return min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)


def test_table_grows_with_its_words():
    assert sheet.table_height(()) == 0
    assert sheet.table_height(rows(2)) > sheet.table_height(rows(1))
    assert sheet.table_height(rows(1, MESSAGE * 3)) > sheet.table_height(rows(1))
    made = sheet.furnish("A3", 1, 1, {}, rows(3))
    assert made.taken[0].height == pytest.approx(sheet.stack_height(rows(3)))


def test_heading_counts_severities():
    assert findings_table.summary(rows(5)) == "2 dangers, 1 warning, 1 notice, 1 accepted"


def test_too_many_findings_are_refused():
    with pytest.raises(ValueError, match="do not fit"):
        sheet.furnish("A4", 1, 1, {}, rows(40))


def test_unknown_field_is_refused():
    with pytest.raises(ValueError, match="colour"):
        sheet.furnish("A4", 1, 1, {"colour": "red"})


def test_empty_fields_stay_empty():
    made = sheet.furnish("A3", 1, 1, {"title": "Cabin"})
    assert [text.text for text in made.texts if text.role == "title"] == ["Cabin", "1/1"]


@given(st.text(max_size=120))
def test_any_title_fits_its_cell(title):
    made = sheet.furnish("A3", 1, 1, {"title": title, "legal owner": title, "supplementary title": title})
    block = Box(made.taken[0].x, 260, 180, 27)
    assert all(inside(tags.text_box(text), block) for text in made.texts if text.role == "title")


def test_frameless_sheet_holds_drawing_table_and_legend():
    drawing = Box(5, 5, 90, 60)
    made = sheet.furnish_frameless(drawing, rows(3), [find("fuse"), find("battery")])
    whole = Box(0, 0, made.width, made.height)
    assert all(inside(box, whole) and apart(box, drawing) for box in made.taken)
    assert all(inside(tags.text_box(text), whole) for text in made.texts)
    bare = sheet.furnish_frameless(drawing, caution="")
    assert (bare.taken, bare.texts, bare.rows) == ((), (), ())


def test_legend_names_each_look_once():
    names = ("fuse", "converter", "fuse", "solar-charger", "load")
    shapes = [Shape(str(n), find(name), 0, 0) for n, name in enumerate(names)]
    assert [symbol.says for symbol in legend.used(shapes)] == ["fuse", "dc converter", "load"]


def test_legend_shows_the_weights_of_line_in_use():
    lines = [Line("a", "a:f0", ((0, 0), (1, 0)), weight) for weight in ("signal", "dc", "fault", "dc")]
    assert legend.weights(lines) == ("dc", "signal")
    made = sheet.furnish("A3", 1, 1, {}, (), [find("fuse")], weights=legend.weights(lines))
    assert [key.weight for key in made.keys] == ["dc", "signal"]
    assert {"direct current", "sense or control lead", "fuse"} <= {text.text for text in made.texts}


def drawn_box(shape: Shape) -> Box:
    """Round the strokes of an upright symbol."""
    corners = [
        (shape.x + x + side * stroke.radius, shape.y + y + side * stroke.radius)
        for stroke in shape.symbol.strokes for x, y in stroke.points for side in (-1, 1)
    ]
    return tags.bound(*corners)


def test_legend_of_every_symbol_keeps_them_apart():
    made = legend.legend(list(SYMBOLS.values()), 0, 0, 205, tuple(legend.WEIGHTS))
    boxes = [drawn_box(shape) for shape, _ in made.shapes] + [tags.text_box(text) for text in made.texts] + [tags.bound(*key.points) for key in made.keys]
    assert all(apart(a, b) for a, b in combinations(boxes, 2))
    assert all(inside(box, made.box) for box in boxes)
