"""16.5 V at 65 °C with -0.4 %/°C are 13.86 V; four lithium cells are charged to 14.2 V."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "pv-voltage-too-low"


@pytest.mark.parametrize("vmp, expected", [("18 V", 1), ("18.09 V", 1), ("18.1 V", 0), ("20.4 V", 0)])
def test_a_tracking_controller_needs_a_volt_more(vmp, expected):
    assert 15.2 / 0.84 == pytest.approx(18.095, abs=1e-3)
    assert len(bad(RULE, ("vmp: 16.5 V", f"vmp: {vmp}"), ("voc: 20 V", "voc: 24 V"))) == expected


@pytest.mark.parametrize("vmp, expected", [("16.9 V", 1), ("16.91 V", 0)])
def test_a_switching_one_none(vmp, expected):
    assert 14.2 / 0.84 == pytest.approx(16.905, abs=1e-3)
    assert len(bad(RULE, ("vmp: 16.5 V", f"vmp: {vmp}"), ("type: mppt", "type: pwm"))) == expected


@pytest.mark.parametrize("vmp, expected", [("15.1 V", 1), ("15.2 V", 0)])
def test_without_a_hottest_day_only_what_is_too_low_at_any(vmp, expected):
    assert len(bad(RULE, ("site: {hottest: 35 °C}\n", ""), ("vmp: 16.5 V", f"vmp: {vmp}"))) == expected


def test_without_its_voltage_at_full_power_nothing_is_said():
    assert bad(RULE, ("vmp: 16.5 V, ", ""), ("vmp drift: -0.4 %/°C, ", "")) == ()


@pytest.mark.parametrize("vmp, expected", [("14.19 V", 1), ("14.2 V", 0)])
def test_a_switching_one_needs_the_bank_s_own_voltage(vmp, expected):
    pairs = ("site: {hottest: 35 °C}\n", ""), ("vmp: 16.5 V", f"vmp: {vmp}"), ("type: mppt", "type: pwm")
    assert len(bad(RULE, *pairs)) == expected


@pytest.mark.parametrize("vmp, expected", [("15.19999999 V", 0), ("15.1999999848 V", 0), ("15.199999984 V", 1)])
def test_a_billionth_is_rounding(vmp, expected):
    """Of 15.2 V."""
    assert len(bad(RULE, ("site: {hottest: 35 °C}\n", ""), ("vmp: 16.5 V", f"vmp: {vmp}"))) == expected


@pytest.mark.parametrize("hottest, expected", [("5.3 °C", 0), ("5.4 °C", 0), ("10 °C", 0), ("14.6 °C", 0), ("14.8 °C", 1)])
def test_cells_are_thirty_kelvin_above_the_air(hottest, expected):
    """16.5 V fall to 15.2 V at 25 °C + (1 - 15.2 / 16.5) / 0.4 % = 44.7 °C in the cell."""
    assert 25 + (1 - 15.2 / 16.5) / 0.004 == pytest.approx(44.697, abs=1e-3)
    assert len(bad(RULE, ("hottest: 35 °C", f"hottest: {hottest}"))) == expected


def test_only_a_solar_charger_is_judged():
    assert bad(RULE, ("type: mppt, output", "voltage: 12 V, output"), ("solar charger", "dc charger")) == ()


def test_without_a_bank_nothing_is_needed():
    assert bad(RULE, ("  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}\n", "")) == ()
