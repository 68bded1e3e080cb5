"""What parts the house from the starter battery."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, good

RULE = "starter-drained"
SPLIT = "{feed: engine-battery/fuse 100 A -> split -> fuse 100 A/bank, return: block -> bank, wire: [2 AWG 1 m, 1 m]}"
FRIDGE = "{feed: engine-battery/fuse 10 A -> fridge, wire: 12 AWG 2 m}"


@pytest.mark.parametrize("device, expected",
                         [("switch open 200 A", 0), ("switch battery 200 A", 1), ("fuse 100 A", 1),
                          ("switch ignition 200 A", 0)])
def test_between_the_two_banks(device, expected):
    assert len(good(RULE, (SPLIT, SPLIT.replace("split", device)),
                    ("  split: {kind: isolator, rating: 140 A, type: sensing}\n", ""))) == expected


def test_a_diode_from_the_starter_battery_lets_the_house_draw_on_it():
    assert len(good(RULE, ("type: sensing", "type: diode"))) == 1


@pytest.mark.parametrize("switch, expected",
                         [("switch ignition 10 A", 0), ("switch key 10 A", 0), ("switch 10 A", 1),
                          ("switch thermostat 10 A", 1)])
def test_a_load_of_the_engines_own(switch, expected):
    line = FRIDGE.replace("-> fridge", f"-> {switch} -> fridge").replace("12 AWG 2 m", "[12 AWG 1 m, 1 m]")
    assert len(bad(RULE, (FRIDGE, line))) == expected


@pytest.mark.parametrize("field, expected", [("always on: yes", 0), ("hours: 0.1", 0), ("hours: 8", 1)])
def test_what_is_always_on_or_for_moments(field, expected):
    assert len(bad(RULE, ("power: 50 W", f"power: 50 W, {field}"))) == expected


def test_a_charger_takes_from_it_while_the_engine_runs():
    pairs = ("fridge: {kind: load, voltage: 12 V, power: 50 W}",
             "fridge: {kind: dc charger, output: 10 A, voltage: 12 V, input voltage: 12 V}"), (
        FRIDGE, "{feed: engine-battery/fuse 20 A -> fridge.in, wire: 12 AWG 2 m}\n"
                "  - {feed: fridge -> fuse 15 A/bank, wire: 12 AWG 1 m}")
    assert bad(RULE, *pairs) == ()


@pytest.mark.parametrize("fields, said", [
    ("power: 50 W", "(50 W)"), ("power: 50 W, count: 2", "(100 W)"), ("current: 5 A", "")])
def test_says_what_drains_it(fields, said):
    (one,) = bad(RULE, ("power: 50 W", fields))
    assert one.message.startswith(f"`fridge` {said}".strip() + " can empty `engine-battery`")


def test_an_inverter_drains_it_by_what_hangs_on_it():
    """Its own power is no load, so none is told."""
    lines = ("  inverter: {kind: inverter, power: 300 W, neutral: bonded}\ncircuits:\n"
             "  - {feed: engine-battery/fuse 50 A -> inverter, return: block -> inverter, wire: 6 AWG 1 m}")
    (one,) = bad(RULE, ("circuits:", lines))
    assert one.message.startswith("`fridge` and `inverter` (50 W) can empty")


@pytest.mark.parametrize("hours, expected", [("0.24", 0), ("0.25", 0), ("0.251", 1), ("15 min", 0), ("16 min", 1)])
def test_a_quarter_of_an_hour_is_a_moment(hours, expected):
    assert len(bad(RULE, ("power: 50 W", f"power: 50 W, hours: {hours}"))) == expected
