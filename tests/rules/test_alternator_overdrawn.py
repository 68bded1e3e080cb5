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


@pytest.mark.parametrize("current, expected", [("60 A", 0), ("60.006 A", 0), ("60.007 A", 1)])
def test_a_ten_thousandth_is_rounding(current, expected):
    assert len(bad(RULE, ("input current: 70 A", f"input current: {current}"))) == expected


@pytest.mark.parametrize("continuous, expected", [("65.1 A", 1), ("65.2 A", 0)])
def test_an_alternator_that_states_no_voltage_holds_that_of_its_battery(continuous, expected):
    """60 A at 14.2 V, 90 %, out of six cells of 2.42 V: 65.2 A."""
    assert 60 * 14.2 / (0.9 * 14.52) == pytest.approx(65.197, abs=1e-3)
    assert len(bad(RULE, (TAKES, ""), ("continuous: 60 A, voltage: 14.2 V", f"continuous: {continuous}"))) == expected


SECOND = ("  second: {kind: dc charger, output: OUTPUT, voltage: 12 V, input voltage: 12 V}\n"
          "circuits:\n  - {feed: engine-battery/fuse 10 A -> second.in, wire: 14 AWG 2 m}")


def test_a_charger_that_charges_nothing_takes_nothing():
    pairs = ("input current: 70 A", "input current: 60.006 A"), ("circuits:", SECOND.replace("OUTPUT", "50 A"))
    assert bad(RULE, *pairs) == ()


def test_one_charger_that_is_reckoned_makes_the_sum_an_estimate():
    """70 A as stated and 1.11 A of the second."""
    line = "\n  - {feed: second -> fuse 5 A/bank, wire: 14 AWG 1 m}"
    (one,) = bad(RULE, ("circuits:", SECOND.replace("OUTPUT", "1 A") + line))
    assert one.message.endswith("but `dc-charger` and `second` take about 71.1 A")


def test_a_converter_is_a_load_and_no_charger():
    lines = ("  step-up: {kind: converter, voltage: 24 V, output: 30 A, input voltage: 10 .. 16 V}\n"
             "circuits:\n  - {feed: engine-battery/fuse 80 A -> step-up.in, wire: 4 AWG 1 m}")
    assert [one.message for one in bad(RULE, ("circuits:", lines))] == [one.message for one in bad(RULE)]


def test_an_alternator_on_another_battery_does_not_help():
    lines = ("  aft: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}\n"
             "  second: {kind: alternator, output: 50 A}\n"
             "circuits:\n  - {feed: second -> fuse 60 A/aft, return: second -> aft, wire: 6 AWG 1 m}")
    assert [one.nodes for one in bad(RULE, ("circuits:", lines))] == [("alternator", "dc-charger")]


def test_between_two_banks_that_a_switch_joins_a_charger_passes_nothing():
    tie = "circuits:\n  - {feed: engine-battery/fuse 80 A -> SWITCH -> fuse 80 A/bank, return: none, wire: [4 AWG 1 m, 1 m]}"
    assert bad(RULE, ("circuits:", tie.replace("SWITCH", "switch battery 200 A"))) == ()
    assert len(bad(RULE, ("circuits:", tie.replace("SWITCH", "switch open 200 A")))) == 1


def test_an_alternator_on_a_charger_alone_holds_no_voltage_to_reckon_with():
    """No battery stands on its net, which another rule tells."""
    assert bad(RULE, (TAKES, ""), ("output: 90 A, continuous: 60 A, voltage: 14.2 V", "output: 5 A"),
               ("{feed: alternator -> fuse 125 A/engine-battery,", "{feed: alternator -> fuse 125 A -> dc-charger.in,"),
               ("block, wire: 2 AWG 1 m}\n  - {return: engine", "block, wire: [2 AWG 1 m, 1 m]}\n  - {return: engine"),
               ("  - {feed: engine-battery/fuse 80 A -> dc-charger.in, wire: 4 AWG 2 m}\n",
                "  - {return: dc-charger.in -> block, wire: 4 AWG 2 m}\n")) == ()
