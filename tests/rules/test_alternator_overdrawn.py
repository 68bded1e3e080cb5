"""What chargers take from an alternator, stated or reckoned."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "alternator-overdrawn"
TAKES = ", input current: 70 A"


@pytest.mark.parametrize("gives, expected", [("69.9 A", 1), ("70 A", 0), ("70.1 A", 0)])
def test_the_continuous_output(gives, expected):
    assert len(bad(RULE, ("continuous: 60 A", f"continuous: {gives}"))) == expected


@pytest.mark.parametrize("output, expected", [("69 A", 1), ("70 A", 0)])
def test_the_rated_output_where_no_other_is_stated(output, expected):
    assert len(bad(RULE, ("output: 90 A, continuous: 60 A", f"output: {output}"))) == expected


@pytest.mark.parametrize("gives, expected", [("66.6 A", 1), ("66.7 A", 0)])
def test_a_charger_that_states_no_input_current(gives, expected):
    """60 A at 14.2 V, 90 %, out of 14.2 V: 66.67 A."""
    findings = bad(RULE, (TAKES, ""), ("continuous: 60 A", f"continuous: {gives}"))
    assert ["about 66.7 A" in one.message for one in findings] == [True] * expected


def test_a_charger_between_two_house_banks_is_not_its_load():
    assert bad(RULE, ("{feed: engine-battery/fuse 80 A -> dc-charger.in", "{feed: other/fuse 80 A -> dc-charger.in"),
               ("circuits:", "  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\ncircuits:")) == ()


def test_two_alternators_on_one_battery_add_up():
    lines = ("  second: {kind: alternator, output: 20 A}\n"
             "circuits:\n"
             "  - {feed: second -> fuse 30 A/engine-battery, return: second/block, wire: 10 AWG 1 m}")
    assert bad(RULE, ("circuits:", lines)) == ()


@pytest.mark.parametrize("second, said", [("", "60 A continuously"), ("output: 5 A", "65 A continuously"),
                                          ("output: 9 A, continuous: 4 A", "64 A continuously")])
def test_says_what_the_machines_give(second, said):
    lines = (f"  second: {{kind: alternator, {second}}}\ncircuits:\n"
             "  - {feed: second -> fuse 30 A/engine-battery, return: second/block, wire: 10 AWG 1 m}")
    (one,) = bad(RULE, *([("circuits:", lines)] if second else []))
    assert f"{said}, but `dc-charger` takes 70 A" in one.message


def test_a_rated_output_is_the_most_it_gives():
    (one,) = bad(RULE, ("output: 90 A, continuous: 60 A", "output: 69 A"))
    assert "69 A at most" in one.message
