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
