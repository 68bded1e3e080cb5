"""Input voltage under full load, by hand: the root of V (E - V) / R = P."""

from __future__ import annotations

import math

import pytest

from tests.rules.variants import bad, good

RULE = "converter-starved"
OHMS_A_METRE = 0.778 / 304.8 * (1 - 0.00323 * 5)  # 8 AWG stranded: NEC Chapter 9 Table 8 at 75 °C, brought to 70 °C


def volts(metres: float) -> float:
    """A 12 V bank of 4 kA, `metres` there and back, 24 V 15 A at 90 %."""
    ohms, watts = 12 / 4000 + 2 * metres * OHMS_A_METRE, 24 * 15 / 0.9
    return (12 + math.sqrt(144 - 4 * ohms * watts)) / 2


@pytest.mark.parametrize("metres", [1, 3, 4, 4.4, 4.6, 5, 6])
def test_the_drop_of_its_line(metres):
    findings = bad(RULE, ("[8 AWG 1 m, 6 m]", f"[8 AWG 0.5 m, {metres - 0.5:.1f} m]"))
    assert bool(findings) == (volts(metres) < 11)
    if findings:
        assert f"{volts(metres):.4g} V" in findings[0].message


def test_a_line_that_cannot_carry_it_at_all():
    (one,) = bad(RULE, ("[8 AWG 1 m, 6 m]", "[8 AWG 10 m, 20 m]"))
    assert "cannot carry" in one.message


def test_what_it_runs_now_is_counted_once():
    assert len(bad(RULE, ("power: 300 W", "power: 360 W"))) == len(bad(RULE, ("power: 300 W", "power: 3 W"))) == 1


@pytest.mark.parametrize("window, expected", [("12 V", 0), ("10.5 .. 15 V", 0), ("10.7 .. 15 V", 1)])
def test_the_window(window, expected):
    assert len(bad(RULE, ("11 .. 15 V", window))) == expected


def test_a_large_bank_nearby():
    assert good(RULE) == ()
