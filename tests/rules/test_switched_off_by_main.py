"""Which switches are the main one."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, good

RULE = "switched-off-by-main"
MAIN = "switch battery 100 A"
PUMP = "{feed: bank/fuse 10 A -> switch float 10 A -> bilge-pump, wire: [14 AWG 2 m, 1 m]}"


@pytest.mark.parametrize("device, expected", [(MAIN, 1), ("switch 100 A", 1), ("breaker 100 A", 0), ("fuse 100 A", 0)])
def test_the_device_in_the_main_line(device, expected):
    assert len(bad(RULE, (MAIN, device))) == expected


@pytest.mark.parametrize("device, expected", [("switch float 10 A", 0), ("switch 10 A", 0), (MAIN, 1)])
def test_its_own_switch_is_no_main_switch(device, expected):
    assert len(good(RULE, (PUMP, PUMP.replace("switch float 10 A", device)))) == expected


def test_a_selector_that_has_an_off():
    pairs = ("{feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}",
             "{feed: bank/fuse 50 A -> pick.1, return: bank -> panel, wire: 6 AWG 1 m}\n"
             "  - {feed: pick -> panel, return: none, wire: 6 AWG 1 m}")
    (one,) = bad(RULE, pairs, ("circuits:", "  pick: {kind: selector, rating: 100 A}\ncircuits:"))
    assert one.nodes == ("bilge-pump", "pick")


def test_two_feeds_of_which_one_stays():
    line = "{feed: panel/fuse 10 A -> switch float 10 A -> bilge-pump, wire: [14 AWG 2 m, 1 m]}"
    assert bad(RULE, (line, f"{line}\n"
                            f"  - {{feed: bank/fuse 10 A -> bilge-pump, return: none, wire: 14 AWG 2 m}}")) == ()


def test_a_converter_on_the_way():
    pairs = ("bilge-pump: {kind: load, voltage: 12 V",
             "step: {kind: converter, voltage: 24 V, output: 5 A, input voltage: 12 V}\n"
             "  bilge-pump: {kind: load, voltage: 24 V"), (
        "{feed: panel/fuse 10 A -> switch float 10 A -> bilge-pump, wire: [14 AWG 2 m, 1 m]}",
        "{feed: panel/fuse 10 A -> step.in, wire: 14 AWG 1 m}\n  - {feed: step -> bilge-pump, wire: 14 AWG 2 m}")
    assert len(bad(RULE, *pairs, ("# ^^^^^^^^^^ switched", "# switched"))) == 1


def test_two_banks_with_a_main_switch_each():
    line = "{feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}"
    other = ("{feed: other/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}",
             "  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\ncircuits:")
    pairs = (line, f"{line}\n  - {other[0]}"), ("circuits:", other[1])
    (one,) = bad(RULE, *pairs)
    assert one.nodes == ("bilge-pump", "Q1", "Q2")
    unswitched = other[0].replace("switch battery 100 A -> ", "").replace(", 0.5 m", "")
    bare = pairs[0][0], pairs[0][1].replace(other[0], unswitched)
    assert bad(RULE, bare, pairs[1]) == ()
