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
