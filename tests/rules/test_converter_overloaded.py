"""60 W and 120 W at 12 V: 15 A."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import bad, edited, good

RULE = "converter-overloaded"
OUTPUT = "output: 20 A"


@pytest.mark.parametrize("output, expected", [("14.9 A", 1), ("15 A", 0), ("15.1 A", 0)])
def test_the_loads_together(output, expected):
    assert len(good(RULE, (OUTPUT, f"output: {output}"))) == expected


def test_loads_by_their_current_and_number():
    pairs = ("power: 60 W", "current: 6 A"), ("power: 120 W", "current: 3 A, count: 3")
    assert good(RULE, *pairs, (OUTPUT, "output: 15 A")) == ()
    assert len(good(RULE, *pairs, (OUTPUT, "output: 14.9 A"))) == 1


@pytest.mark.parametrize("start, expected", [("300 W", 1), ("240 W", 0), ("21 A", 1)])
def test_one_loads_start(start, expected):
    assert len(good(RULE, ("power: 60 W", f"power: 60 W, start: {start}"))) == expected


def test_named_states_say_what_runs_together():
    assert found(RULE, RULES[RULE].bad + "states: {day: {heater: off}, night: {fridge: off}}\n") == ()


def test_a_battery_on_its_output_helps():
    line = ("  buffer: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}\n"
            "circuits:\n"
            "  - {feed: panel/fuse 20 A -> buffer, wire: 10 AWG 1 m}")
    assert bad(RULE, ("circuits:", line)) == ()


def test_two_on_one_panel_add_up():
    twin = "  twin: {kind: converter, voltage: 12 V, output: 3 A, input voltage: 18 .. 36 V}\n  panel:"
    lines = ("circuits:\n  - {feed: bank/fuse 5 A -> twin.in, wire: 14 AWG 1 m}\n"
             "  - {feed: twin -> panel, wire: 14 AWG 1 m}")
    text = edited(RULES[RULE].bad, ("  panel:", twin), ("circuits:", lines))
    assert found(RULE, text) == ()
    assert len(found(RULE, text.replace("output: 3 A", "output: 2.9 A"))) == 1


def test_a_converter_behind_it_takes_its_losses():
    """5 A at 5 V through 50 %: 50 W, 4.17 A at 12 V."""
    lines = ("  usb: {kind: converter, voltage: 5 V, output: 6 A, efficiency: 50 %, input voltage: 9 .. 18 V}\n"
             "  phone: {kind: load, voltage: 5 V, power: 25 W}\ncircuits:\n"
             "  - {feed: panel/fuse 10 A -> usb.in, wire: 14 AWG 1 m}\n  - {feed: usb -> phone, wire: 14 AWG 1 m}")
    assert len(good(RULE, ("circuits:", lines), (OUTPUT, "output: 19.1 A"))) == 1
    assert good(RULE, ("circuits:", lines), (OUTPUT, "output: 19.2 A")) == ()


@pytest.mark.parametrize("amps, expected", [("10 A", 0), ("10.0015 A", 0), ("10.002 A", 1)])
def test_a_ten_thousandth_is_rounding(amps, expected):
    """With 5 A beside it, of 15 A; and as much while it starts."""
    pairs = ("power: 60 W", "current: 5 A"), ("power: 120 W", f"current: {amps}"), (OUTPUT, "output: 15 A")
    assert len(good(RULE, *pairs)) == expected


@pytest.mark.parametrize("watts, expected", [("240 W", 0), ("240.024 W", 0), ("240.03 W", 1)])
def test_a_ten_thousandth_of_a_start_is_rounding(watts, expected):
    assert len(good(RULE, ("power: 60 W", f"power: 60 W, start: {watts}"))) == expected


@pytest.mark.parametrize("start, expected", [("120 W", 0), ("121 W", 1)])
def test_a_start_behind_another_converter_takes_its_losses(start, expected):
    """120 W through 50 % are 240 W, 20 A at 12 V."""
    lines = ("  usb: {kind: converter, voltage: 5 V, output: 30 A, efficiency: 50 %, input voltage: 9 .. 18 V}\n"
             f"  phone: {{kind: load, voltage: 5 V, power: 2 W, start: {start}}}\ncircuits:\n"
             "  - {feed: panel/fuse 10 A -> usb.in, wire: 14 AWG 1 m}\n  - {feed: usb -> phone, wire: 14 AWG 1 m}")
    assert len(good(RULE, ("circuits:", lines))) == expected


def test_says_in_which_state():
    text = edited(RULES[RULE].good, (OUTPUT, "output: 12 A"))
    (one,) = found(RULE, text + "states: {day: {heater: off}, evening: {}}\n")
    assert "take 15 A together (evening), but" in one.message
