"""A module's power is its vmp times its imp, 20.4 V times 9.8 A are 199.9 W."""

from __future__ import annotations

import pytest

from diagrammer.rules.solar import unlikely_module
from tests.rules.variants import bad, severities

RULE = "unlikely-module"


@pytest.mark.parametrize("power, expected", [
    ("179.8 W", ["warning"]), ("180 W", []), ("200 W", []), ("219.8 W", []), ("220 W", ["warning"]),
])
def test_a_tenth_is_rounding_and_tolerance(power, expected):
    assert 20.4 * 9.8 == pytest.approx(199.92)
    assert severities(bad(RULE, ("power: 400 W", f"power: {power}"))) == expected


@pytest.mark.parametrize("power, expected", [
    ("125 W", ["warning"]), ("126 W", []), ("225 W", []), ("226 W", ["warning"]),
])
def test_without_both_the_power_is_held_to_voc_times_isc(power, expected):
    assert (0.5 * 24.6 * 10.2, 0.9 * 24.6 * 10.2) == pytest.approx((125.46, 225.83), abs=0.01)
    for left_out in (("vmp: 20.4 V, ", ""), (", imp: 9.8 A", "")):
        assert severities(bad(RULE, ("power: 400 W", f"power: {power}"), left_out)) == expected


@pytest.mark.parametrize("wrong, said", [
    (("vmp: 20.4 V", "vmp: 24.6 V"), "vmp 24.6 V, which is not below voc, 24.6 V"),
    (("imp: 9.8 A", "imp: 10.2 A"), "imp 10.2 A, which is not below isc, 10.2 A"),
])
def test_what_is_loaded_lies_below_what_is_not(wrong, said):
    (one,) = bad(RULE, ("power: 400 W", "power: 200 W"), wrong)
    assert said in one.message


def test_the_power_of_the_whole_array_is_recognized():
    (whole,) = bad(RULE)
    assert "Write the power of one module, 200 W" in whole.fix
    (other,) = bad(RULE, ("power: 400 W", "power: 700 W"))
    assert "series" in other.fix and "Write the power" not in other.fix


@pytest.mark.parametrize("power, expected", [("120 W", []), ("119.9 W", ["warning"]), ("216 W", []), ("216.1 W", ["warning"])])
def test_the_ends_of_what_modules_fill_belong_to_it(power, expected):
    """Half and nine tenths of 24 V times 10 A."""
    pairs = ("vmp: 20.4 V, ", ""), ("voc: 24.6 V", "voc: 24 V"), ("isc: 10.2 A", "isc: 10 A")
    assert severities(bad(RULE, ("power: 400 W", f"power: {power}"), *pairs)) == expected


@pytest.mark.parametrize("power, expected", [
    ("359 W", False), ("360 W", True), ("439 W", True), ("440 W", False),  # half of it within a tenth of 199.92 W
])
@pytest.mark.parametrize("several", ["series: 2", "parallel: 2"])
def test_what_counts_as_the_power_of_the_whole_array(several, power, expected):
    (one,) = bad(RULE, ("power: 400 W", f"power: {power}"), ("series: 2", several))
    assert ("Write the power of one module" in one.fix) == expected


@pytest.mark.parametrize("change", [("series: 2, ", ""), ("vmp: 20.4 V, ", ""), (", imp: 9.8 A", "")])
def test_of_one_module_or_without_both_figures_no_power_is_proposed(change):
    (one,) = bad(RULE, change)
    assert "Write the power" not in one.fix


def test_a_single_module_s_power_may_be_right_and_its_voltage_wrong():
    (one,) = bad(RULE, ("series: 2, ", ""), ("power: 400 W", "power: 200 W"), ("voc: 24.6 V", "voc: 20 V"))
    assert "not below voc" in one.message and "Write the power" not in one.fix


@pytest.mark.parametrize("one, fixed", [(30, True), (30.001, False), (10, True), (9.999, False)])
def test_a_difference_of_what_is_tolerated_is_tolerated(monkeypatch, one, fixed):
    """Half of 10 V times 2 A either way; so that binary fractions meet it."""
    monkeypatch.setattr(unlikely_module, "APART", 0.5)
    (finding,) = bad(RULE, ("series: 2, power: 400 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A",
                            f"series: 4, power: {4 * one} W, voc: 12 V, vmp: 10 V, isc: 3 A, imp: 2 A"))
    assert finding.fix.startswith("Write the power of one module") is fixed
