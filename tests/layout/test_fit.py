"""Symbols fitted to what lands on them: every tag's lead ends on ink."""

from __future__ import annotations

import math

import pytest

from diagrammer.layout.p4_blocks.fit import fitted
from diagrammer.symbols import SYMBOLS, find
from tests.symbols.geometry import all_ink


@pytest.mark.parametrize("count", (1, 2, 3, 4))
@pytest.mark.parametrize("name", SYMBOLS)
def test_tags_at_the_left_end_on_ink(name, count):
    symbol, _ = fitted(find(name), [("1", 0.0)], [("2", 0.0)], [f"r{n}" for n in range(count)])
    ink = all_ink(symbol)
    for n in range(count):
        x, y = symbol.ports[f"r{n}"]
        if any(abs(point[1] - y) < 0.02 for point in ink):
            assert min(math.dist((x, y), point) for point in ink) < 0.3, f"{name}: {n} of {count} hangs in the air"


def test_one_or_two_leads_stand_at_a_shunt_s_own_taps():
    for count in (1, 2):
        symbol, _ = fitted(find("shunt"), [("1", 0.0)], [("2", 0.0)], [f"x{n}a" for n in range(count)])
        taps = sorted(y for (x, y) in (stroke.points[1] for stroke in symbol.strokes) if x == -symbol.width / 2)
        assert [symbol.ports[f"x{n}a"][1] for n in range(count)] == pytest.approx(taps[:count])
        assert len(symbol.strokes) == len(find("shunt").strokes)


@pytest.mark.parametrize("name", [name for name in SYMBOLS if any(s.radius > 1 for s in find(name).strokes)])
def test_circles_stay_circles(name):
    """A stretched body grows in all directions, so that what meets the circle still does."""
    symbol, _ = fitted(find(name), [("1", 0.0)], [("2", 0.0)], ["r1", "r2", "r3", "r4"])
    share = symbol.height / find(name).height
    assert share > 1 and symbol.width == pytest.approx(find(name).width * share)
    for old, new in zip(find(name).strokes, symbol.strokes):
        assert new.radius == pytest.approx(old.radius * share)


@pytest.mark.parametrize("order", (["1", "2"], ["2", "1"]))
@pytest.mark.parametrize("name", ("transfer", "selector"))
def test_lines_meet_the_contacts_in_either_order(name, order):
    symbol, centre = fitted(find(name), [(order[0], 0.0), (order[1], 21.0)], [("common", 10.5)], [])
    tops = {stroke.points[0][0] + centre for stroke in symbol.strokes
            if stroke.form == "line" and stroke.points[0][1] == -symbol.height / 2 and len(stroke.points) == 2}
    assert sorted(tops) == pytest.approx([0.0, 21.0])


def test_a_selector_entered_at_its_common_stands_upside_down():
    from diagrammer.layout.draw import draw
    from diagrammer.layout.options import Options
    from tests.layout.common_systems import parsed

    made = draw(parsed("""
nodes:
  a: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  b: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  which: {kind: selector, rating: 200 A}
  main: {kind: bar, rating: 200 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  pump: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: a/fuse 100 A -> which.1, return: none}
  - {feed: b/fuse 100 A -> which.2, return: none}
  - {feed: which.common -> main, return: none}
  - {feed: main/fuse 5 A -> lamp, return: none}
  - {feed: main/fuse 5 A -> pump, return: none}
"""), (), Options(engine="own"))
    shape = next(shape for shape in made.sheets[0].shapes if shape.node == "which")
    ring = {round(stroke.points[0][1], 3) for stroke in shape.symbol.strokes if stroke.form == "circle"}
    assert shape.symbol.sides["common"] == "up" and min(ring) == -max(ring)
    assert sum(stroke.points[0][1] > 0 for stroke in shape.symbol.strokes if stroke.form == "circle") == 2
