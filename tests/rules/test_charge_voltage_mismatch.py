"""Charge voltages against chemistries: 12 V gel bears 14.4 V, agm 14.7 V, four lithium cells 14.6 V."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, severities

RULE = "charge-voltage-mismatch"


@pytest.mark.parametrize("chemistry, bank, volts, expected", [
    ("gel", "12 V", "14.4 V", []), ("gel", "12 V", "14.41 V", ["danger"]),
    ("agm", "12 V", "14.7 V", []), ("agm", "12 V", "14.8 V", ["danger"]),
    ("lifepo4", "12.8 V", "14.6 V", []), ("lifepo4", "12.8 V", "14.7 V", ["danger"]),
    ("flooded", "12 V", "15.6 V", []),
    ("agm", "24 V", "29.4 V", []), ("agm", "24 V", "29.6 V", ["danger"]),
])
def test_the_highest(chemistry, bank, volts, expected):
    pairs = ("chemistry: gel, voltage: 12 V", f"chemistry: {chemistry}, voltage: {bank}"), ("14.8 V}", f"{volts}}}")
    assert severities(bad(RULE, *pairs)) == expected


@pytest.mark.parametrize("volts", ["12 V", "12.8 V", "12.9 V"])
def test_a_voltage_near_the_nominal_one_is_no_set_point(volts):
    assert bad(RULE, ("14.8 V}", f"{volts}}}")) == ()


@pytest.mark.parametrize("volts, expected", [("13.3 V", ["warning"]), ("13.5 V", [])])
def test_below_float_it_is_never_full(volts, expected):
    """Gel floats at 13.68 V; two percent are left for the regulator's tolerance."""
    assert severities(bad(RULE, ("14.8 V}", f"{volts}}}"))) == expected


def test_what_the_battery_states_goes_first():
    assert severities(bad(RULE, ("max charge: 60 A", "max charge: 60 A, max voltage: 14.8 V"))) == []
    assert severities(bad(RULE, ("14.8 V}", "14.3 V}"),
                          ("max charge: 60 A", "max charge: 60 A, max voltage: 14.2 V"))) == ["danger"]


def test_behind_an_isolator_too():
    lines = ("  house: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah}\n"
             "  split: {kind: isolator, rating: 100 A}\n"
             "circuits:\n"
             "  - {feed: bank/fuse 60 A -> split -> fuse 60 A/house, return: bank -> house, wire: [6 AWG 1 m, 1 m]}")
    (one,) = bad(RULE, ("circuits:", lines), ("chemistry: gel", "chemistry: flooded"))
    assert one.nodes == ("alternator", "house")


def test_a_bank_that_it_does_not_reach():
    lines = ("  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
             "  fan: {kind: load, voltage: 12 V, power: 10 W}\n"
             "circuits:\n"
             "  - {feed: other/fuse 5 A -> fan, return: other -> fan, wire: 14 AWG 1 m}")
    (one,) = bad(RULE, ("circuits:", lines))
    assert one.nodes == ("alternator", "bank")


@pytest.mark.parametrize(("volts", "said"), [
    ("15 V", "gel of 12 V and agm of 12 V bear no more than 14.4 V"),  # the least that one of them bears
    ("13.3 V", "gel of 12 V and agm of 12 V are not full below 13.7 V"),  # the most that one of them needs
])
def test_of_two_banks_the_one_that_asks_most(volts, said):
    """Gel floats at 13.68 V and bears 14.4 V; agm floats at 13.59 V and bears 14.7 V."""
    lines = ("  house: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
             "  split: {kind: isolator, rating: 100 A}\n"
             "circuits:\n"
             "  - {feed: bank/fuse 60 A -> split -> fuse 60 A/house, return: bank -> house, wire: [6 AWG 1 m, 1 m]}")
    (one,) = bad(RULE, ("circuits:", lines), ("14.8 V}", f"{volts}}}"))
    assert one.nodes == ("alternator", "bank", "house") and one.message.endswith(said)


@pytest.mark.parametrize("volts, expected", [
    (14.2, []), (14.2 * (1 + 1e-9), []), (14.2 * (1 + 1.05e-9), ["danger"]),
    (13.68 * 0.98, []), (13.68 * 0.98 - 1e-9, ["warning"])])
def test_what_is_met_is_not_passed(volts, expected):
    """Gel floats at 13.68 V; more than rounding above what the battery bears is too much."""
    bears = "max charge: 60 A", "max charge: 60 A, max voltage: 14.2 V"
    assert severities(bad(RULE, ("14.8 V}", f"{volts!r} V}}"), bears)) == expected
