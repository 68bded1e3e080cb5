"""Which isolators, on which side."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "isolator-on-lithium"


@pytest.mark.parametrize("change", [
    ("chemistry: lifepo4, voltage: 12.8 V", "chemistry: agm, voltage: 12 V"), ("type: sensing", "type: diode"),
])
def test_what_is_no_such_case(change):
    assert bad(RULE, change) == ()


def test_without_an_alternator_there_is_nothing_to_overload():
    assert bad(
        RULE, ("{kind: alternator, output: 90 A, voltage: 14.2 V}", "{kind: load, voltage: 12 V, power: 10 W}"),
        ("alternator -> fuse 125 A/engine-battery, return: alternator/block",
         "engine-battery/fuse 125 A -> alternator, return: block -> alternator"),
    ) == ()


def test_it_may_be_written_from_either_end():
    line = "{feed: engine-battery/fuse 125 A -> split -> fuse 125 A/bank, return: block -> bank"
    assert len(bad(RULE,
                   (line, "{feed: bank/fuse 125 A -> split -> fuse 125 A/engine-battery, return: bank -> block"))) == 1


def test_a_resistor_limits_the_current():
    assert bad(RULE, ("split -> fuse 125 A/bank", "split -> resistor 0.05 Ω 500 W -> fuse 125 A/bank"),
               ("[2 AWG 1 m, 1 m]", "[2 AWG 1 m, 1 m, 1 m]")) == ()


def test_on_the_bank_s_side_an_alternator_needs_no_isolator():
    """It charges the lithium straight, which is another matter."""
    assert bad(RULE, ("{feed: alternator -> fuse 125 A/engine-battery, return: alternator/block",
                      "{feed: alternator -> fuse 125 A/bank, return: alternator -> bank")) == ()


SPLIT = "{feed: engine-battery/fuse 125 A -> split -> fuse 125 A/bank, return: block -> bank, wire: [2 AWG 1 m, 1 m]}"


def test_a_diode_the_other_way_round_passes_nothing():
    back = SPLIT.replace("engine-battery/fuse 125 A -> split -> fuse 125 A/bank, return: block -> bank",
                         "bank/fuse 125 A -> split -> fuse 125 A/engine-battery, return: bank -> block")
    assert bad(RULE, (SPLIT, back), ("type: sensing", "type: diode")) == ()


def test_a_switch_that_rests_open_is_no_isolator():
    assert bad(RULE, (SPLIT, SPLIT.replace("split", "switch open 200 A")),
               ("  split: {kind: isolator, rating: 140 A, type: sensing}\n", "")) == ()


@pytest.mark.parametrize("switch, expected", [("switch battery 200 A", 0), ("switch open 200 A", 1)])
def test_what_a_switch_joins_is_not_joined_by_the_isolator(switch, expected):
    tie = f"circuits:\n  - {{feed: engine-battery/fuse 125 A -> {switch} -> bank, return: none, wire: [2 AWG 1 m, 1 m]}}"
    assert len(bad(RULE, ("circuits:", tie))) == expected


def test_an_engine_and_lithium_on_either_side_are_told_once():
    pairs = ("chemistry: flooded, voltage: 12 V", "chemistry: lifepo4, voltage: 12.8 V"), (
        "circuits:", "  second: {kind: alternator, output: 60 A}\n"
                     "circuits:\n  - {feed: second -> fuse 80 A/bank, return: second -> bank, wire: 4 AWG 1 m}")
    (one,) = bad(RULE, *pairs)
    assert "joins `alternator` (90 A) to the lithium of `bank`" in one.message
