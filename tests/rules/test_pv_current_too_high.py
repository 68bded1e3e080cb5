"""Two strings of 10.2 A: 1.25 x 20.4 A = 25.5 A."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "pv-current-too-high"
LIMIT = "max pv current: 25 A"


@pytest.mark.parametrize("limit, expected", [("25.4 A", 1), ("25.5 A", 0), ("25.6 A", 0)])
def test_the_limit(limit, expected):
    assert len(bad(RULE, (LIMIT, f"max pv current: {limit}"))) == expected


def test_nothing_is_said_where_no_limit_is_stated():
    assert bad(RULE, (f", {LIMIT}", "")) == ()


def test_series_does_not_add():
    assert bad(RULE, ("parallel: 2", "series: 2")) == ()


@pytest.mark.parametrize("isc, expected", [("40.8000000408 A", 0), ("40.800000043 A", 1)])
def test_a_billionth_is_rounding(isc, expected):
    """1.25 x 2 x 40.8 A = 102 A."""
    pairs = ("isc: 10.2 A", f"isc: {isc}"), ("imp: 9.8 A", "imp: 39 A"), (LIMIT, "max pv current: 102 A")
    assert len(bad(RULE, *pairs)) == expected
