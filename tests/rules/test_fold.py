"""One cause with several symptoms is one finding."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import check
from diagrammer.text import report
from tests.rules.asked import van

HEATER = "  heater: {kind: load, voltage: 12 V, current: 50 A, hours: 4, duty: heat}"
LAMP = "  lamp: {kind: load, voltage: 12 V, power: 24 W, hours: 4}"


def loud(text: str):
    system, problems = read(text, "case.yaml")
    assert system is not None, problems
    return [one for one in check(system) if one.severity != "notice" and one.rule != "bank-never-charged"]


def test_a_wire_too_thin_is_one_finding_with_what_follows():
    (one,) = loud(van("{feed: feed-bar/fuse 60 A -> heater, wire: 14 AWG 4 m}", nodes=HEATER))
    assert one.rule == "protection-too-large" and one.severity == "danger"
    assert [symptom.partition(":")[0] for symptom in one.symptoms] == ["conductor-overloaded", "voltage-drop"]
    assert all(f"    with  {symptom}" in report.finding(one, None, True) for symptom in one.symptoms)
    assert "(and 2 more that follow from it)" in report.finding(one, None, False)
    assert report.as_json("case.yaml", [one])["findings"][0]["symptoms"] == list(one.symptoms)


def test_the_fault_of_another_line_is_told_beside_it():
    text = van("{feed: feed-bar/fuse 60 A -> heater, wire: 14 AWG 4 m}",
               "{feed: feed-bar/fuse 5 A -> lamp, wire: 16 AWG 30 m}", nodes=f"{HEATER}\n{LAMP}")
    assert [one.rule for one in loud(text)] == ["protection-too-large", "voltage-drop"]


def test_what_is_accepted_neither_folds_nor_is_folded():
    line = "{feed: feed-bar/fuse 60 A -> heater, wire: 14 AWG 4 m, accept: {RULE: it is meant}}"
    rules = [one.rule for one in loud(van(line.replace("RULE", "protection-too-large"), nodes=HEATER))]
    assert rules == ["conductor-overloaded", "protection-too-large"]
    rules = [one.rule for one in loud(van(line.replace("RULE", "voltage-drop"), nodes=HEATER))]
    assert rules == ["protection-too-large", "voltage-drop"]


def test_a_cause_is_as_grave_as_what_follows():
    text = RULES["isolator-on-lithium"].bad.replace("rating: 140 A", "rating: 20 A")
    found = {one.rule: one for one in loud(text)}
    assert RULES["isolator-on-lithium"].severity == "warning" and RULES["overloaded-bar"].severity == "danger"
    one = found["isolator-on-lithium"]
    assert one.severity == "danger" and any(said.startswith("overloaded-bar") for said in one.symptoms)
    assert "overloaded-bar" not in found


@pytest.mark.parametrize("rule", sorted(RULES))
def test_what_a_rule_explains_is_a_rule(rule):
    assert set(RULES[rule].symptoms) <= set(RULES) - {rule}
