"""What may stand between an alternator and its battery."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, good, severities

RULE = "load-dump"
LINE = "{feed: alternator -> fuse 80 A/engine-battery, return: alternator/block, wire: 4 AWG 1 m}"


@pytest.mark.parametrize("device, node, expected", [
    ("fuse 80 A", "", []), ("breaker 80 A", "", []), ("diode 100 A", "", []),
    ("switch battery 100 A", "", ["notice"]), ("switch 100 A", "", ["notice"]),
    ("switch ignition 100 A", "", ["warning"]),
    ("K1", "K1: {kind: relay, rating: 100 A, coil: 12 V}", ["warning"]),
    ("split", "split: {kind: isolator, rating: 100 A}", ["warning"]),
])
def test_the_device(device, node, expected):
    line = LINE.replace("fuse 80 A/engine-battery", f"{device} -> engine-battery")
    line = line.replace("4 AWG 1 m", "[4 AWG 1 m, 1 m]")
    pairs = [(LINE, line)] + ([("circuits:", f"  {node}\ncircuits:")] if node else [])
    assert severities(good(RULE, *pairs)) == expected


def test_a_battery_that_stays_is_enough():
    nodes = ("  house: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
             "  split: {kind: isolator, rating: 100 A}\ncircuits:\n"
             "  - {feed: engine-battery/fuse 80 A -> split -> fuse 80 A/house, return: block -> house, "
             "wire: [4 AWG 1 m, 1 m]}")
    assert good(RULE, ("circuits:", nodes)) == ()


def test_a_lithium_battery_that_stops_charging_in_the_cold():
    pairs = ("duty: starter, chemistry: flooded, voltage: 12 V",
             "chemistry: lifepo4, voltage: 12.8 V, cold cutoff: yes"),
    (one,) = good(RULE, *pairs)
    assert one.severity == "warning" and "protection circuit of `engine-battery`" in one.message


def test_without_any_battery_another_rule_speaks():
    assert bad(RULE, ("alternator -> fuse 80 A/bank", "alternator -> fuse 80 A/joint"),
               ("circuits:", "  joint: {kind: joint}\ncircuits:")) == ()


@pytest.mark.parametrize("chemistry, voltage, more, expected", [
    ("lifepo4", "12.8 V", "", 0), ("lifepo4", "12.8 V", ", cold cutoff: no", 0), ("lifepo4", "12.8 V", ", cold cutoff: yes", 1),
    ("agm", "12 V", "", 0), ("agm", "12 V", ", cold cutoff: yes", 1),
])
def test_a_battery_opens_only_where_its_electronics_are_said_to(chemistry, voltage, more, expected):
    pairs = ("chemistry: flooded, voltage: 12 V", f"chemistry: {chemistry}, voltage: {voltage}{more}"),
    assert len(good(RULE, *pairs)) == expected


def test_of_two_batteries_the_one_behind_a_switch_is_told():
    """What the isolator joins would have gone before; the switch takes off the last that stays."""
    nodes = ("nodes:", "nodes:\n  house: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
                       "  split: {kind: isolator, rating: 100 A}")
    lines = (LINE, LINE.replace("fuse 80 A/engine-battery", "switch battery 100 A -> engine-battery")
             .replace("4 AWG 1 m", "[4 AWG 1 m, 1 m]") + "\n  - {feed: engine-battery/fuse 80 A -> split -> fuse 80 A/house, "
             "return: block -> house, wire: [4 AWG 1 m, 1 m]}")
    (one,) = good(RULE, nodes, lines)
    assert one.severity == "notice" and "can take `engine-battery` off `alternator`" in one.message


def test_a_battery_on_one_pole_alone_holds_nothing():
    """Behind the protection circuit stands the bank; the other battery shares only the return."""
    nodes = ("circuits:", "  spare: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah}\n"
                          "  lamp: {kind: load, voltage: 12 V, power: 5 W}\ncircuits:\n"
                          "  - {return: spare -> block, wire: 4 AWG 1 m}\n"
                          "  - {feed: spare/fuse 5 A -> lamp, return: block -> lamp, wire: 14 AWG 1 m}")
    (one,) = bad(RULE, nodes)
    assert "`cell-watch` can take `bank` off `alternator`" in one.message
