"""Bars, switches and panels against what passes them and what stands ahead."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "overloaded-bar"


@pytest.mark.parametrize(("item", "node", "count"), [
    ("switch 19.9 A", "Q2", 1), ("switch 20 A", "", 0), ("plug 19 A", "X1", 1), ("plug 20 A", "", 0),
])
def test_what_is_passed(item, node, count):
    text = van(f"{{feed: feed-bar/fuse 30 A -> {item} -> lamp, wire: [10 AWG 1 m, 1 m]}}",
        nodes="  lamp: {kind: load, voltage: 12 V, current: 20 A}")
    found_ = found(RULE, text)
    assert [one.nodes[0] for one in found_] == [node] * count and all(one.severity == "danger" for one in found_)


@pytest.mark.parametrize(("rating", "count"), [("23.9 A", 1), ("24 A", 0)])
def test_a_joint_bears_the_sum(rating, count):
    nodes = f"  tee: {{kind: joint, rating: {rating}, pair: return-bar}}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 12 A}}" for n in (1, 2))
    text = van("{feed: feed-bar/fuse 30 A -> tee, wire: 10 AWG 1 m}",
        *(f"{{feed: tee -> lamp-{n}, wire: 10 AWG 1 m}}" for n in (1, 2)), nodes=nodes)
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("amps", "severities"), [("60 A", []), ("70 A", ["warning"])])
def test_a_panel_behind_a_larger_device(amps, severities):
    nodes = "  box: {kind: panel, rating: 60 A, pair: return-bar}\n" + "\n".join(
        f"  lamp-{n}: {{kind: load, voltage: 12 V, current: 2 A}}" for n in (1, 2))
    lines = [f"{{feed: box/fuse 40 A -> lamp-{n}, wire: 8 AWG 1 m}}" for n in (1, 2)]
    text = van(f"{{feed: feed-bar/fuse {amps} -> box, wire: 4 AWG 1 m}}", *lines, nodes=nodes)
    assert [one.severity for one in found(RULE, text)] == severities
    small = [line.replace("40 A", "20 A") for line in lines]  # the branches together let 40 A out
    assert found(RULE, van(f"{{feed: feed-bar/fuse {amps} -> box, wire: 4 AWG 1 m}}", *small, nodes=nodes)) == ()


@pytest.mark.parametrize(("switch", "wire", "count"),
    [("200 A", "4/0 AWG", 0), ("199 A", "4/0 AWG", 1), ("179 A", "3 AWG", 1), ("180 A", "3 AWG", 0)])
def test_a_battery_switch_bears_the_main_device_or_its_cable(switch, wire, count):
    """ABYC E-11 11.6.1.2.3; 3 AWG may carry 180 A."""
    text = van("{feed: feed-bar/fuse 200 A -> lamp, wire: 4/0 AWG 1 m}",
        nodes="  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = text.replace("switch battery 300 A", f"switch battery {switch}").replace("[2/0 AWG 0.5 m", f"[{wire} 0.5 m")
    assert len(found(RULE, text)) == count


def test_a_starter_battery_that_can_be_joined_is_not_the_device_ahead():
    nodes = ("  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, "
             "pair: return-bar}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = van("{feed: engine/fuse 400 A -> switch open 400 A -> fuse 400 A/feed-bar, wire: [4/0 AWG 1 m, 1 m]}",
               "{return: engine -> return-bar, wire: 4/0 AWG 1 m}",
               "{feed: feed-bar/fuse 350 A -> lamp, wire: 4/0 AWG 1 m}", nodes=nodes)
    assert found(RULE, text) == ()


def test_an_alternator_that_nothing_limits_is_not_the_device_ahead():
    """Beyond the starter battery's fuse it counts no more than that battery does; what it gives is a current."""
    nodes = ("  engine: {kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah, "
             "pair: return-bar}\n"
             "  alternator: {kind: alternator, voltage: 14 V, output: 90 A, self limiting: no}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = van("{feed: engine/fuse 400 A -> switch open 400 A -> fuse 400 A/feed-bar, wire: [4/0 AWG 1 m, 1 m]}",
               "{return: engine -> return-bar, wire: 4/0 AWG 1 m}",
               "{feed: alternator/fuse 100 A -> fuse 100 A/engine, return: alternator -> return-bar, wire: 2 AWG 1 m}",
               "{feed: feed-bar/fuse 350 A -> lamp, wire: 4/0 AWG 1 m}", nodes=nodes)
    assert found(RULE, text.replace("[2/0 AWG 0.5 m", "[4/0 AWG 0.5 m")) == ()


@pytest.mark.parametrize(("length", "rating", "count"), [("1 m", "16 A", 1), ("12 m", "21 A", 0), ("1 m", "21 A", 0)])
def test_a_current_that_only_a_drop_makes_is_its_symptom(length, rating, count):
    """180 W at 12 V are 15 A; the bank low and 20 % lost on the way make more of it than the switch bears."""
    text = van(f"{{feed: feed-bar/fuse 40 A -> switch {rating} -> pump, wire: [12 AWG {length}, 1 m]}}",
               nodes="  pump: {kind: load, voltage: 12 V, power: 180 W, hours: 4}")
    assert len(found(RULE, text)) == count


def test_wind_on_a_bar_without_its_battery_drives_nothing_through_the_loads():
    nodes = ("  mill: {kind: wind, power: 240 W, voltage: 12 V, output: 20 A}\n"
             "  lamp: {kind: load, voltage: 12 V, current: 2 A}")
    text = van("{feed: mill -> fuse 30 A/feed-bar, wire: 8 AWG 2 m}",
               "{feed: feed-bar/fuse 3 A -> switch 5 A -> lamp, wire: [16 AWG 1 m, 1 m]}", nodes=nodes)
    swapped = text.replace("bank/fuse class-t", "bank.-/fuse class-t").replace("return: bank ->", "return: bank.+ ->")
    assert found(RULE, text) == found(RULE, swapped) == ()
