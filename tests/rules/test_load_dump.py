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
