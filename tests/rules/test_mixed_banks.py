"""Chemistry, voltage and capacity, in parallel and in series."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import edited, good

RULE = "mixed-banks"
RIGHT = "right: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}"
SERIES = ("{feed: left -> right, wire", "{series: right -> left, wire")


@pytest.mark.parametrize("right, expected", [
    ("chemistry: gel, voltage: 12 V, capacity: 100 Ah", "gel"),
    ("chemistry: agm, voltage: 12 V, capacity: 97 Ah", "97 Ah"),
    ("chemistry: agm, voltage: 12 V, capacity: 97.99 Ah", "98 Ah"),
    ("chemistry: agm, voltage: 12 V, capacity: 98 Ah", ""),
    ("chemistry: agm, voltage: 12 V, capacity: 102 Ah", ""),
    ("chemistry: agm, voltage: 12 V, capacity: 102.1 Ah", "102 Ah"),
    ("chemistry: agm, voltage: 12 V, capacity: 1.2 kWh", ""),
])
def test_in_parallel(right, expected):
    messages = [one.message for one in good(RULE, (RIGHT, f"right: {{kind: battery, {right}}}"))]
    assert [expected in message for message in messages] == [True] * bool(expected)


@pytest.mark.parametrize("right, expected", [
    ("chemistry: agm, voltage: 12 V, capacity: 100 Ah", ""),
    ("chemistry: agm, voltage: 12 V, capacity: 120 Ah", "120 Ah"),
    ("chemistry: agm, voltage: 6 V, capacity: 100 Ah", "6 V"),
    ("chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah", "lifepo4"),
])
def test_in_series(right, expected):
    text = edited(RULES[RULE].good, (RIGHT, f"right: {{kind: battery, {right}}}"), SERIES,
                  ("voltage: 12 V, power", "voltage: 9 .. 33 V, power"))
    messages = [one.message for one in found(RULE, text)]
    assert [expected in message for message in messages] == [True] * bool(expected)


def test_the_nominal_voltage_of_lithium_is_written_in_two_ways():
    pairs = ("left: {kind: battery, chemistry: agm, voltage: 12 V",
             "left: {kind: battery, chemistry: lifepo4, voltage: 12.8 V"), (
        "right: {kind: battery, chemistry: agm", "right: {kind: battery, chemistry: lifepo4")
    assert good(RULE, *pairs) == ()


def test_a_starter_battery_behind_a_switch_is_another_bank():
    pairs = ("{feed: left -> right, wire: 2 AWG 0.3 m}",
             "{feed: left/fuse 100 A -> switch battery 200 A -> fuse 100 A/right, wire: [2 AWG 1 m, 1 m]}"), (
        RIGHT, "right: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 70 Ah}")
    assert good(RULE, *pairs) == ()


@pytest.mark.parametrize("between", ["switch open 200 A", "isolator"])
def test_what_only_joins_at_times_makes_no_bank(between):
    pairs = [("{feed: left -> right, wire: 2 AWG 0.3 m}",
              f"{{feed: left/fuse 100 A -> {between.replace('isolator', 'split')} -> fuse 100 A/right, "
              "return: left -> right, wire: [2 AWG 1 m, 1 m]}"),
             (RIGHT, RIGHT.replace("agm", "gel"))]
    if between == "isolator":
        pairs.append(("  panel:", "  split: {kind: isolator, rating: 140 A}\n  panel:"))
    assert good(RULE, *pairs) == ()


def test_the_one_unlike_most_is_named():
    text = edited(RULES[RULE].good,
                  ("  panel:", "  third: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n  panel:"),
                  ("{feed: left -> right, wire", "{feed: left -> right -> third, wire"),
                  ("2 AWG 0.3 m", "[2 AWG 0.3 m, 0.3 m]"),
                  ("left: {kind: battery, chemistry: agm", "left: {kind: battery, chemistry: flooded"))
    assert [one.nodes[0] for one in found(RULE, text)] == ["left"]
