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


def test_a_load_says_its_power_where_it_states_one():
    (one,) = bad(RULE)
    assert one.message == "`bilge-pump` (60 W) must always be on, but `Q1` takes it off `bank`"
    (one,) = bad(RULE, ("power: 60 W, always on", "power: 60 W, count: 2, always on"))
    assert one.message.startswith("`bilge-pump` (120 W) must")
    (one,) = bad(RULE, ("power: 60 W, always on", "current: 5 A, always on"))
    assert one.message.startswith("`bilge-pump` must")


@pytest.mark.parametrize("kind", ["relay", "contactor"])
def test_a_switch_that_is_worked_from_afar(kind):
    """A main line is as dead behind an open contact of a relay as behind a switch."""
    (one,) = bad(RULE, ("circuits:", f"  far: {{kind: {kind}, rating: 100 A, coil: 12 V}}\ncircuits:"),
                 ("-> switch battery 100 A -> panel", "-> far -> panel"),
                 ("bilge-pump: {", "key: {kind: switch, rating: 5 A}\n  bilge-pump: {"))
    assert one.nodes == ("bilge-pump", "far")


def test_a_float_switch_for_two_pumps_is_their_own():
    lines = ("  tee: {kind: joint}\n"
             "  second: {kind: load, voltage: 12 V, power: 60 W, always on: yes}\n"
             "circuits:\n"
             "  - {feed: tee -> second, return: bank -> second, wire: 14 AWG 1 m}")
    both = ("{feed: bank/fuse 10 A -> switch float 10 A -> tee, return: none, wire: [14 AWG 2 m, 1 m]}\n"
            "  - {feed: tee -> bilge-pump, return: bank -> bilge-pump, wire: 14 AWG 1 m}")
    assert good(RULE, (PUMP, both), ("circuits:", lines)) == ()


def test_what_no_bank_feeds_is_not_switched_off():
    line = "  - {feed: panel/fuse 10 A -> switch float 10 A -> bilge-pump, wire: [14 AWG 2 m, 1 m]}\n"
    assert bad(RULE, (line, "")) == ()


def test_two_battery_switches_in_a_row():
    (one,) = good(RULE, (PUMP, PUMP.replace("switch float 10 A", f"{MAIN} -> {MAIN}").replace(", 1 m]", ", 1 m, 1 m]")))
    assert len(one.nodes) == 2 and one.nodes[0] == "bilge-pump"


LINE = "{feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}"
OTHER = "  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"


def test_of_several_switches_those_that_have_a_part_in_it():
    """Each bank has one; the fan's own has none."""
    (one,) = bad(RULE, (LINE, f"{LINE}\n  - {LINE.replace('bank/', 'other/')}"), ("circuits:", f"{OTHER}circuits:"),
                 ("fuse 5 A -> fan, wire: 14 AWG 2 m", f"fuse 5 A -> {MAIN} -> fan, wire: [14 AWG 2 m, 1 m]"))
    assert one.nodes == ("bilge-pump", "Q1", "Q2")


def test_a_selector_beside_a_battery_switch():
    nodes = f"{OTHER}  pick: {{kind: selector, rating: 100 A}}\ncircuits:"
    lines = (f"{LINE}\n  - {{feed: other/fuse 50 A -> pick.1, return: other -> panel, wire: 6 AWG 1 m}}\n"
             "  - {feed: pick -> panel, return: none, wire: 6 AWG 1 m}")
    (one,) = bad(RULE, (LINE, lines), ("circuits:", nodes))
    assert sorted(one.nodes) == ["Q1", "bilge-pump", "pick"]


@pytest.mark.parametrize(("duty", "said"), [("house", "off `bank` and `other`"), ("starter", "off `bank`")])
def test_a_house_bank_is_named_before_the_engine_s(duty, said):
    other = OTHER.replace("capacity", f"duty: {duty}, capacity").replace("kind: bank", "kind: battery")
    join = "{feed: bank/fuse 30 A -> switch 50 A -> fuse 30 A/other, return: bank -> other, wire: [6 AWG 1 m, 1 m]}"
    (one,) = bad(RULE, ("circuits:", f"{other}circuits:\n  - {join}"))
    assert one.message.endswith(said)


def test_an_engine_s_battery_alone_is_named():
    (one,) = bad(RULE, ("kind: bank, chemistry: agm", "kind: battery, duty: starter, chemistry: agm"))
    assert one.message.endswith("off `bank`")
