"""The gates are clean on every sample and size, and each of them can fail."""

from __future__ import annotations

from dataclasses import replace

import pytest

from diagrammer.layout import gates
from diagrammer.layout.draw import draw
from diagrammer.layout.options import Options
from diagrammer.layout.scene import Bar, Flag, Line, Scene, Shape, Sheet, Stub, Text
from diagrammer.lettering.width import SMALLEST
from diagrammer.symbols import find
from tests.layout.common_systems import NAMES, SIZES, made, marks_on, sample, scene


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", NAMES)
def test_samples_pass_every_gate(name, size):
    assert scene(name, size).remarks == ()


@pytest.mark.parametrize("name", NAMES)
def test_samples_bend_seldom(name):
    assert gates.bends(scene(name)) <= 0.05


@pytest.mark.parametrize("name", NAMES)
def test_flagged_samples_pass_every_gate(name):
    drawing = draw(sample(name), marks_on(sample(name)), Options(engine="own"))
    assert drawing.remarks == ()


@pytest.mark.parametrize("seed", range(40))
def test_generated_systems_pass_every_gate(seed):
    drawing = draw(made(seed), (), Options(engine="own"))
    assert drawing.remarks == ()
    assert gates.bends(drawing) <= 0.05


@pytest.mark.parametrize("seed", range(60, 72))
def test_generated_systems_pass_every_gate_on_small_sheets(seed):
    assert draw(made(seed), (), Options(size="A4", engine="own")).remarks == ()


@pytest.mark.parametrize("seed", range(3))
def test_large_generated_systems_pass_every_gate(seed):
    assert draw(made(seed, 120), (), Options(engine="own")).remarks == ()


@pytest.mark.parametrize("seed, size", [(9068, 60), (9092, 45), (9044, 100)])
def test_small_sheets_hold_wide_converters_at_a_row_and_panels_under_a_converter(seed, size):
    assert draw(made(seed, size), (), Options(size="A4", engine="own")).remarks == ()


FUSE = find("fuse")


def sheet(**things) -> Scene:
    return Scene("", "", (Sheet(1, 1, "", 100, 100, "", **things),))


def text(x: float, y: float, said: str = "words", size: float = SMALLEST) -> Text:
    return Text(x, y, said, size, "name")


def line(*points, circuit: str = "c", weight: str = "dc") -> Line:
    return Line(circuit, f"{circuit}:f0", points, weight)


F1, F2 = Shape("F1", FUSE, 20, 20), Shape("F2", FUSE, 40, 20)
BROKEN = {
    "node on node": sheet(shapes=(F1, replace(F2, x=21))),
    "label on label": sheet(texts=(text(10, 50), text(12, 51))),
    "label on symbol": sheet(shapes=(F1,), texts=(text(18, 20),)),
    "label on line": sheet(shapes=(F1,), texts=(text(18, 12),), lines=(line((20, 16.5), (20, 5)),)),
    "flag on a thing": sheet(shapes=(F1,), flags=(Flag((1,), "danger", (20, 20), ("r",)),)),
    "flag on flag": sheet(flags=(Flag((1,), "danger", (20, 20), ("r",)), Flag((2,), "notice", (21, 20), ("r",)))),
    "line through symbol": sheet(shapes=(F1,), lines=(line((10, 20), (30, 20)),)),
    "lines overlaid": sheet(lines=(line((10, 50), (30, 50)), line((20, 50), (40, 50), circuit="d"))),
    "crossing": sheet(lines=(line((10, 50), (30, 50)), line((20, 40), (20, 60), circuit="d"))),
    "right angles": sheet(lines=(line((10, 50), (30, 51)),)),
    "line end not on a terminal": sheet(shapes=(F1,), lines=(line((20, 16.5), (20, 5)),)),
    "series device not straight": sheet(shapes=(F1,), lines=(line((20, 16.5), (30, 16.5), (30, 5)),)),
    "capitals too small": sheet(texts=(text(10, 50, size=2.0),)),
    "off the sheet": sheet(shapes=(replace(F1, x=99),)),
    "on title block or legend": sheet(
        shapes=(F1,), texts=(Text(15, 20, "Title", SMALLEST, "caption"), Text(15, 30, "words", SMALLEST, "title")),
    ),
    "taps out of order": sheet(
        bars=(Bar("W1", (10, 10), (10, 40), 1.6),),
        lines=(replace(line((10.8, 20), (30, 20)), line=9), replace(line((10.8, 30), (30, 30), circuit="d"), line=8)),
    ),
    "reference without its partner": sheet(stubs=(Stub("x1a", (10, 10), "down", "W1", "to", "W1", "x1b"),)),
}


def level_bar(*columns: tuple[float, float, int]) -> Scene:
    """A level bar with a line at each (x, its other end's y, line of the file)."""
    taps = (replace(line((x, 40.0), (x, y), circuit=f"c{x}"), line=number) for x, y, number in columns)
    return sheet(bars=(Bar("W1", (5, 40), (95, 40), 1.6),), lines=tuple(taps))


@pytest.mark.parametrize("columns, broken", [
    (((10, 60, 5), (20, 60, 8), (30, 60, 2), (40, 60, 3), (50, 60, 1)), False),  # bank, loads, what makes ac
    (((10, 60, 5), (20, 60, 4), (30, 60, 3), (40, 60, 2)), True),
    (((10, 20, 5), (20, 20, 8), (30, 60, 2)), False),
    (((10, 20, 8), (20, 20, 5)), True),  # above the bar nothing comes first
])
def test_columns_of_a_level_bar_keep_the_order_of_the_file(columns, broken):
    assert ("taps out of order" in {fault.gate for fault in gates.faults(level_bar(*columns))}) is broken


@pytest.mark.parametrize("gate", BROKEN)
def test_each_gate_fires(gate):
    assert gate in {fault.gate for fault in gates.faults(BROKEN[gate])}


def test_a_bar_crossed_by_a_line_is_a_line_through_a_symbol():
    bar = Bar("W1", (10, 20), (40, 20), 1.6)
    crossed = sheet(bars=(bar,), lines=(line((20, 10), (20, 30)),))
    assert "line through symbol" in {f.gate for f in gates.faults(crossed)}


def test_a_sound_pair_of_things_breaks_nothing():
    bar = Bar("W1", (10, 5), (40, 5), 1.6)
    fine = sheet(shapes=(F1,), bars=(bar,), lines=(line((20, 5.8), (20, 16.5)),), texts=(text(22, 20),))
    assert gates.faults(fine) == ()


def test_what_no_line_shows_is_found():
    scene = sheet(lines=(line((1, 1), (2, 1)),))
    assert [f.gate for f in gates.undrawn(scene, {"c:f0": "", "gone:f0": ""})] == ["link not drawn"]
    assert gates.undrawn(scene, {"c:f0": "r1", "mate:r1": "r1"}) == []  # one line for what one tag stood for
    assert len(gates.undrawn(scene, {"c:f0": "r1", "other:r1": "r2"})) == 1


def test_two_references_that_name_each_other_are_a_pair():
    pair = (
        Stub("x1a", (10, 10), "down", "W1", "to", "W1", "x1b"),
        Stub("x1b", (50, 10), "down", "W2", "from", "W2", "x1a"),
    )
    assert "reference without its partner" not in {f.gate for f in gates.faults(sheet(stubs=pair))}


def test_bends_are_counted_for_each_circuit_but_not_those_of_returns_at_fault():
    bent = line((0, 0), (5, 0), (5, 5))
    assert gates.bends(sheet(lines=(bent,))) == 1
    assert gates.bends(sheet(lines=(replace(bent, weight="fault"),))) == 0
