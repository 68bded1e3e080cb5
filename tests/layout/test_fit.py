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
