"""Batteries that count, and lines at fault."""

from __future__ import annotations

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import check
from tests.rules.variants import bad, edited, good

RULE = "alternator-without-battery"
BATTERY = "{feed: alternator -> fuse 80 A/engine-battery, return: alternator/block, wire: 4 AWG 1 m}"


def test_behind_whatever_can_close():
    line = BATTERY.replace("fuse 80 A/engine-battery",
                           "fuse 80 A -> switch open 100 A -> engine-battery")
    line = line.replace("4 AWG 1 m", "[4 AWG 1 m, 1 m, 1 m]")
    assert good(RULE, (BATTERY, line)) == ()


def test_a_diode_against_it():
    line = BATTERY.replace("alternator -> fuse 80 A/engine-battery",
                           "engine-battery -> diode 100 A -> alternator").replace("4 AWG 1 m", "[4 AWG 1 m, 1 m]")
    assert len(good(RULE, (BATTERY, line))) == 1


def test_an_alternator_that_is_never_wired_is_an_unused_node():
    text = edited(RULES[RULE].good, (f"  - {BATTERY}\n", ""))
    system, _ = read(text)
    assert [one.rule for one in check(system) if "alternator" in one.nodes] == ["unused-node"]


def test_its_battery_swapped_is_a_battery_still():
    text = edited(RULES[RULE].good,
                  ("{return: engine-battery -> block, wire: 4 AWG 1 m}",
                   "{return: engine-battery.+ -> block, wire: 4 AWG 1 m}"))
    system, _ = read(text)
    assert RULE not in [one.rule for one in check(system)]


def test_a_charger_is_no_battery():
    assert len(bad(RULE)) == 1
