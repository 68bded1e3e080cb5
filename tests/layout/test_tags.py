"""Tags and flags: words inside their shapes, everything inside the box that the gates use."""

from __future__ import annotations

import pytest

from diagrammer.layout import tags
from diagrammer.layout.scene import Flag, Stub

SIDES = ("up", "down", "left", "right")
FORMS = ("return", "earth", "to", "from")


def within(point, box, near=1e-6):
    return (box.x - near <= point[0] <= box.x + box.width + near
            and box.y - near <= point[1] <= box.y + box.height + near)


def corners(box):
    return [(x, y) for x in (box.x, box.x + box.width) for y in (box.y, box.y + box.height)]


def inside_polygon(point, outline):
    """Left of every edge, or right of every edge, of a convex outline."""
    signs = {
        (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax) >= 0
        for (ax, ay), (bx, by) in zip(outline, outline[1:] + outline[:1])
    }
    return len(signs) == 1


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("form", FORMS)
def test_box_holds_lead_outline_and_words(form, side):
    tag = tags.tag(Stub("s", (50, 60), side, "return-bar /2.C3", form))
    strokes = [point for stroke in tag.strokes for point in stroke]
    points = [*tag.lead, *tag.outline, *strokes, *corners(tags.text_box(tag.text))]
    assert all(within(point, tag.box) for point in points)
    assert tag.lead[0] == (50, 60)
    (dx, dy), middle = tags.WAYS[side], (tag.box.x + tag.box.width / 2, tag.box.y + tag.box.height / 2)
    assert (middle[0] - 50) * dx + (middle[1] - 60) * dy > 0, "the tag points the wrong way"


@pytest.mark.parametrize("side", SIDES)
def test_a_return_has_its_words_inside_its_box(side):
    tag = tags.tag(Stub("s", (0, 0), side, "return-bar", "return"))
    assert all(within(corner, tags.bound(*tag.outline)) for corner in corners(tags.text_box(tag.text)))


@pytest.mark.parametrize("side", SIDES)
@pytest.mark.parametrize("form", ["earth", "to", "from"])
def test_words_beside_a_shape_keep_clear_of_it(form, side):
    tag = tags.tag(Stub("s", (0, 0), side, "WP4 /2.C3", form))
    words = tags.text_box(tag.text)
    shape = [*tag.lead, *tag.outline, *(point for stroke in tag.strokes for point in stroke)]
    assert not [point for point in shape if within(point, words, near=-1e-6)]


def test_reference_points_the_way_current_goes():
    """Away from the line where it leaves the sheet, into the line where it comes back."""
    for form, sign in (("to", 1), ("from", -1)):
        outline = tags.tag(Stub("s", (0, 0), "down", "", form)).outline
        tip = [point for point in outline if point[0] == pytest.approx(0)]
        flat = [point for point in outline if abs(point[0]) > 1]
        assert len(tip) == 1 and all((tip[0][1] - y) * sign > 0 for _, y in flat)


@pytest.mark.parametrize("severity", ["danger", "warning", "notice"])
@pytest.mark.parametrize("numbers", [(1,), (8,), (24,), (3, 7), (12, 13), (101,)])
def test_numbers_stand_inside_their_shape(severity, numbers):
    text = tags.numerals(numbers)
    outline = tags.flag_outline(severity, (10, 10), text)
    line = tags.flag_text(severity, (10, 10), text)
    box = tags.text_box(line)
    ink = [(x, y) for x in (box.x, box.x + box.width) for y in (line.y - tags.CAPS, line.y)]  # digits do not descend
    assert all(inside_polygon(corner, outline) for corner in ink)
    flag = tags.flag_box(Flag(numbers, severity, (10, 10), ("r",)))
    assert all(within(point, flag) for point in outline)
    assert (flag.x + flag.width / 2, flag.y + flag.height / 2) == pytest.approx((10, 10))
