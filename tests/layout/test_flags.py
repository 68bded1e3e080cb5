"""Flags: every mark is shown once, numbered in reading order, as in the table."""

from __future__ import annotations

import pytest

from diagrammer.layout.draw import draw
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import wiring
from diagrammer.layout.p7_grid import rows
from diagrammer.layout.p8_flags import NEAR
from diagrammer.layout.scene import Box, Text
from diagrammer.layout.tags import flag_box
from tests.layout.common_systems import NAMES, made, marks_on, parsed, sample

SYSTEMS = [*NAMES, 300, 301, 302, 303]


def drawing(which, count: int = 12, **options):
    system = sample(which) if isinstance(which, str) else made(which)
    return system, draw(system, marks_on(system, count), Options(engine="own", **options))


@pytest.mark.parametrize("which", SYSTEMS)
def test_every_mark_has_one_number_one_row_and_one_flag(which):
    _, scene = drawing(which)
    flags = sorted(n for sheet in scene.sheets for flag in sheet.flags for n in flag.numbers)
    rows = sorted(row.number for sheet in scene.sheets for row in sheet.rows)
    assert flags == rows == list(range(1, 13))


@pytest.mark.parametrize("which", SYSTEMS)
def test_numbers_go_up_in_reading_order(which):
    _, scene = drawing(which)
    rows = [
        (sheet.number, row.zone[:1], int(row.zone[1:]), row.number)
        for sheet in scene.sheets for row in sheet.rows if "." not in row.zone
    ]
    assert rows == sorted(rows)


@pytest.mark.parametrize("which", SYSTEMS)
def test_rows_say_what_the_marks_say(which):
    system, scene = drawing(which)
    said = {row.rule: (row.severity, row.accepted) for sheet in scene.sheets for row in sheet.rows}
    assert said == {mark.rule: (mark.severity, mark.accepted) for mark in marks_on(system)}


@pytest.mark.parametrize("which", SYSTEMS)
def test_a_flag_further_off_than_a_little_has_a_leader(which):
    _, scene = drawing(which)
    for sheet in scene.sheets:
        for flag in sheet.flags:
            if flag.box and not flag.leader:
                assert gap(flag_box(flag), flag.box) <= NEAR + 0.3


def gap(a: Box, b: Box) -> float:
    dx = max(a.x - b.x - b.width, b.x - a.x - a.width, 0)
    dy = max(a.y - b.y - b.height, b.y - a.y - a.height, 0)
    return (dx * dx + dy * dy) ** 0.5


def test_marks_of_one_thing_share_a_flag_of_the_worst_severity():
    system = sample(NAMES[0])
    node = next(n.name for n in system.nodes.values() if n.kind.name == "fuse")
    marks = (Mark(1, "notice", "a", "first", (node,)), Mark(2, "danger", "b", "second", (node,)))
    flags = [flag for sheet in draw(system, marks, Options(engine="own")).sheets for flag in sheet.flags]
    assert len(flags) == 1 and flags[0].severity == "danger"
    assert flags[0].numbers == (1, 2) and flags[0].rules == ("a", "b")


def test_a_mark_of_nothing_that_is_drawn_still_has_its_row():
    scene = draw(sample(NAMES[0]), (Mark(1, "notice", "a", "of the whole system"),), Options(engine="own"))
    assert [row.number for sheet in scene.sheets for row in sheet.rows] == [1]
    assert not any(sheet.flags for sheet in scene.sheets)


def test_many_findings_get_sheets_of_their_own():
    system = sample(NAMES[0])
    scene = draw(system, marks_on(system, 60), Options(engine="own", size="A4"))
    assert scene.remarks == ()
    rows = [row.number for sheet in scene.sheets for row in sheet.rows]
    assert sorted(rows) == list(range(1, 61))
    assert [sheet.number for sheet in scene.sheets] == list(range(1, scene.sheets[0].count + 1))


def test_a_return_at_fault_is_drawn_in_full():
    system = sample("unmeasured-return")
    returns = (c.cable for c in system.conductors if c.role == "return")
    stray = next(cable for cable in returns if tagged(system, cable))
    plain = draw(system, (), Options(engine="own"))
    scene = draw(system, (Mark(1, "danger", "r", "stray", (), (stray,)),), Options(engine="own"))
    assert not [line for sheet in plain.sheets for line in sheet.lines if line.cable == stray]
    lines = [line for sheet in scene.sheets for line in sheet.lines if line.cable == stray]
    assert len(lines) == 1 and lines[0].weight == "fault" and lines[0].fault == "danger"
    assert scene.remarks == ()


PLUGGED = """
title: A return by way of a plug
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar}
  router: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: bank -> fuse class-t 100 A -> feed-bar, return: bank -> return-bar, wire: {feed: [2 AWG 0.5 m, 0.5 m], return: 2 AWG 0.4 m}}
  - {name: router, feed: feed-bar/fuse 5 A -> plug 5 A -> router, wire: [14 AWG 2 m, 1 m]}
"""


@pytest.mark.parametrize("hops", [("r0",), ("r1",), ("r0", "r1")])
def test_a_return_over_a_plug_at_fault_is_one_line_and_bears_the_flags(hops):
    system = parsed(PLUGGED)
    marks = tuple(Mark(n, "danger", "rule", "Wrong.", (), (f"router:{hop}",)) for n, hop in enumerate(hops, 1))
    scene = draw(system, marks, Options(engine="own"))
    assert scene.remarks == ()
    (line,) = [line for line in scene.sheets[0].lines if line.weight == "fault"]
    assert line.cable == f"router:{hops[0]}"
    assert sorted(n for flag in scene.sheets[0].flags for n in flag.numbers) == list(range(1, len(hops) + 1))
    assert len(scene.sheets[0].flags) == 1


def tagged(system, cable: str) -> bool:
    """Whether a cable is a tag in the plain drawing."""
    lines = {line.cable for sheet in draw(system, (), Options(engine="own")).sheets for line in sheet.lines}
    paired = {line.cable for line in wiring(system).paired}
    return cable not in lines and cable not in paired


@pytest.mark.parametrize("name", NAMES[:2])
def test_all_returns_are_lines_where_asked(name):
    plain = draw(sample(name), (), Options(engine="own"))
    full = draw(sample(name), (), Options(engine="own", all_returns=True))

    def tags(scene):
        return sum(stub.form == "return" for sheet in scene.sheets for stub in sheet.stubs)

    assert tags(full) < tags(plain) * 0.8


@pytest.mark.parametrize("which", SYSTEMS[:4])
def test_a_flag_on_its_own_run_leaves_the_stroke_that_counts_conductors_free(which):
    from diagrammer.layout.p4_blocks.block import boxes_of

    _, scene = drawing(which, 20)
    for sheet in scene.sheets:
        strokes = [box for line in sheet.lines for box in boxes_of(line)[len(line.points) - 1:]]
        for flag in sheet.flags:
            own = flag_box(flag)
            for l, t, r, b in strokes:
                apart = own.x >= r - 0.01 or own.x + own.width <= l + 0.01
                assert apart or own.y >= b - 0.01 or own.y + own.height <= t + 0.01


def test_no_return_at_fault_parts_a_name():
    one, two, far = Text(10, 5, "E10", 2.62, "designation", owner="a"), Text(16, 5, "shower", 2.62, "name", owner="a"), \
        Text(40, 5, "50 W", 2.62, "name", owner="a")
    other = Text(16, 9, "usb", 2.62, "name", owner="b")
    boxes = rows((two, other, far, one))
    assert len(boxes) == 3
    assert any(left < 10.1 and right > 24 for left, _, right, _ in boxes)


def test_a_flag_tells_the_path_from_the_source():
    system = parsed(PLUGGED)
    mark = Mark(1, "danger", "rule", "Wrong.", ("router",), (), path=("bank", "F1", "router"))
    (flag,) = draw(system, (mark,), Options(engine="own")).sheets[0].flags
    assert flag.paths == ("bank > F1 > router",)
