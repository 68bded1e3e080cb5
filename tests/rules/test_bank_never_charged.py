"""What counts as a charging path."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import check
from tests.rules.variants import bad, edited, good

RULE = "bank-never-charged"
SECOND = "  other: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 50 Ah}\ncircuits:"


@pytest.mark.parametrize("between, expected", [
    ("switch open 100 A", []), ("isolator", []), ("relay", []),
])
def test_another_bank_is_charged_through_what_can_join_them(between, expected):
    node = {"isolator": "  split: {kind: isolator, rating: 100 A}\n",
            "relay": "  split: {kind: relay, rating: 100 A, coil: 12 V}\n"}
    line = (
        f"\n  - {{feed: panel/fuse 50 A -> {'split' if between in node else between} -> fuse 50 A/other, "
        "return: other -> panel, wire: [6 AWG 1 m, 1 m]}")
    found = good(RULE, ("circuits:", node.get(between, "") + SECOND + line))
    assert [one.nodes[0] for one in found] == expected


def test_a_bank_with_loads_of_its_own_and_no_charger():
    line = "\n  - {feed: other/fuse 5 A -> lamp, wire: 14 AWG 1 m}"
    found = good(RULE, ("circuits:", "  lamp: {kind: load, voltage: 12 V, power: 5 W}\n" + SECOND + line))
    assert [one.nodes[0] for one in found] == ["other"]


def test_a_diode_lets_charge_pass_one_way_only():
    ways = ("panel/fuse 50 A -> diode 60 A -> other", 0), ("other/fuse 50 A -> diode 60 A -> panel", 1)
    for path, expected in ways:
        line = f"\n  - {{feed: {path}, return: other -> panel, wire: [6 AWG 1 m, 1 m]}}"
        assert len(good(RULE, ("circuits:", SECOND + line))) == expected


def test_an_alternator_and_a_turbine_charge():
    alternator = ("  alternator: {kind: alternator, output: 50 A}\n"
                  "circuits:\n"
                  "  - {feed: alternator -> fuse 60 A/bank, return: alternator -> panel, wire: 6 AWG 1 m}")
    assert bad(RULE, ("circuits:", alternator)) == ()


def test_a_charger_whose_line_is_at_fault_is_a_charger_still():
    """The swapped output is named, not the bank that it would charge."""
    text = edited(RULES[RULE].good, ("{feed: sun -> fuse 15 A/panel, wire: 12 AWG 1 m}",
                                     "{feed: sun.- -> fuse 15 A/panel, return: sun.+ -> panel.-, wire: 12 AWG 1 m}"))
    system, problems = read(text)
    assert not problems
    rules = [one.rule for one in check(system)]
    assert "reversed-polarity" in rules and RULE not in rules


def test_an_alternator_past_its_battery_is_the_cause():
    nodes = RULES["alternator-without-battery"].bad.replace(
        "circuits:",
        "  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}\n"
        "  horn: {kind: load, voltage: 12 V, power: 20 W}\ncircuits:\n"
        "  - {feed: engine-battery/fuse 5 A -> horn, wire: 14 AWG 1 m}")
    system, problems = read(nodes)
    assert not problems
    rules = [one.rule for one in check(system)]
    assert "alternator-without-battery" in rules and RULE not in rules


ALTERNATOR = ("  alternator: {kind: alternator, output: 50 A}\ncircuits:\n"
              "  - {feed: alternator.- -> fuse 60 A/panel, return: alternator.+ -> panel.-, wire: 6 AWG 1 m}")
CONVERTER = ("  step-up: {kind: converter, voltage: 24 V, output: 2 A, input voltage: 10 .. 16 V}\n"
             "  lamp: {kind: load, voltage: 24 V, power: 20 W}\ncircuits:\n"
             "  - {feed: step-up -> lamp, wire: 14 AWG 1 m}\n"
             "  - {feed: panel/fuse 5 A -> step-up.in.-, return: panel.- -> step-up.in.+, wire: 14 AWG 1 m}")


@pytest.mark.parametrize("lines, expected", [(ALTERNATOR, []), (CONVERTER, ["bank"])])
def test_of_what_is_wired_in_reverse_only_a_charger_excuses(lines, expected):
    """An alternator charges once it is put right; a converter that feeds a lamp does not."""
    assert [one.nodes[0] for one in bad(RULE, ("circuits:", lines))] == expected


def test_a_battery_whose_own_line_is_reversed_suffers_from_that():
    lamp, line = "  lamp: {kind: load, voltage: 12 V, power: 5 W}\n", "\n  - {feed: FEED, return: BACK, wire: 14 AWG 1 m}"
    for feed, back, expected in (("other/fuse 5 A -> lamp", "other -> lamp", ["bank", "other"]),
                                 ("other.- -> fuse 5 A/lamp", "other.+ -> lamp.-", ["bank"])):
        lines = lamp + SECOND + line.replace("FEED", feed).replace("BACK", back)
        assert [one.nodes[0] for one in bad(RULE, ("circuits:", lines))] == expected
