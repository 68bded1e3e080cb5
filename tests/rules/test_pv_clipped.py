"""Three modules of 199.9 W at 96 % into 14.2 V: 40.5 A."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, severities

RULE = "pv-clipped"


@pytest.mark.parametrize("output, expected", [("39 A", ["notice"]), ("39.8 A", []), ("41 A", [])])
def test_two_percent_are_not_worth_a_word(output, expected):
    assert 3 * 20.4 * 9.8 * 0.96 / 14.2 == pytest.approx(40.547, abs=1e-3)
    assert severities(bad(RULE, ("output: 30 A", f"output: {output}"))) == expected


def test_a_switching_controller_passes_the_modules_own_current():
    assert bad(RULE, ("type: mppt", "type: pwm"), ("series: 3", "series: 1")) == ()
