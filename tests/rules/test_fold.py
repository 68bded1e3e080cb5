"""One cause with several symptoms is one finding."""

from __future__ import annotations

from itertools import permutations
from types import SimpleNamespace

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.fold import fold
from diagrammer.rules.run import check
from diagrammer.text import report
from diagrammer.text.finding import Finding
from diagrammer.text.place import Place
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


TWO = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  studs: {kind: bar, rating: 100 A, pair: back}
  back: {kind: bar, rating: 100 A}
  lone: {kind: bar, rating: 100 A}
  idle: {kind: bar, rating: 100 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  horn: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {name: main, feed: bank -> fuse 50 A -> studs, return: bank -> back, wire: [6 AWG 1 m, 1 m]}
  - {name: lamp, feed: studs/fuse 5 A -> lamp, wire: 14 AWG 1 m}
  - {name: horn, feed: studs/fuse 5 A -> horn, wire: 14 AWG 1 m}
"""
NAMED = {"hot": ("slow", "dim"), "slow": ("dim", "hot"), "dim": ()}


def folded(*said: tuple[str, str, str], named=NAMED) -> dict[str, tuple[str, ...]]:
    """What is told under what: findings as (rule, conductors, nodes), numbered by their message."""
    system, problems = read(TWO, "case.yaml")
    assert system is not None, problems
    made = [Finding(rule, "notice", f"{number}", "", "", "", Place("case.yaml", number + 1, 1, number + 1, 2),
                    nodes=tuple(nodes.split()), conductors=tuple(conductors.split()))
            for number, (rule, conductors, nodes) in enumerate(said)]
    rules = {name: SimpleNamespace(symptoms=symptoms) for name, symptoms in named.items()}
    return {f"{one.rule}: {one.message}": one.symptoms for one in fold(made, rules, Survey(system))}


@pytest.mark.parametrize(("cause", "symptom", "together"), [
    (("lamp:f0", ""), ("lamp:r0", ""), True),  # of one circuit
    (("lamp:f0 horn:f0", ""), ("horn:f0", ""), False),  # the first conductor is blamed
    (("lamp:f0", "studs"), ("horn:f0", "studs"), False),  # a node that both only name
    (("lamp:f0", ""), ("", "lamp"), True),  # the node stands on that circuit
    (("lamp:f0", ""), ("", "lamp horn"), True), (("lamp:f0", ""), ("", "horn lamp"), False),  # its first one is blamed
    (("lamp:f0", ""), ("", "studs"), False),  # others meet there, too
    (("lamp:f0", "studs"), ("", "studs"), True),  # unless the cause names it
    (("lamp:f0", "horn studs"), ("", "studs horn"), True),
    (("lamp:f0", "studs"), ("", "back studs"), False),
    (("", "studs"), ("", "lamp"), True), (("", "lamp"), ("", "studs"), False),
    (("", "lamp studs"), ("horn:f0", ""), False),
    (("lamp:f0", "lamp"), ("", ""), False),  # about nothing that is drawn
    (("lamp:f0", ""), ("", "lone"), False), (("", "idle"), ("", "lone"), False), (("", "lone"), ("", "lone"), True),
])
def test_a_symptom_is_about_the_circuit_or_the_node_of_its_cause(cause, symptom, together):
    assert folded(("hot", *cause), ("dim", *symptom)) == (
        {"hot: 0": ("dim: 1",)} if together else {"hot: 0": (), "dim: 1": ()})
    assert folded(("dim", *symptom), ("hot", *cause)) == (
        {"hot: 1": ("dim: 0",)} if together else {"dim: 0": (), "hot: 1": ()})


def test_of_two_causes_the_first_tells_what_follows():
    assert folded(("hot", "lamp:f0", ""), ("hot", "lamp:f1", ""), ("dim", "lamp:f0", "")) == {
        "hot: 0": ("dim: 2",), "hot: 1": ()}


def test_each_cause_tells_its_own_symptoms():
    assert folded(("hot", "lamp:f0", ""), ("hot", "horn:f0", ""), ("dim", "horn:f0", ""), ("dim", "lamp:f0", "")) == {
        "hot: 0": ("dim: 3",), "hot: 1": ("dim: 2",)}


def test_of_two_that_explain_each_other_the_first_is_the_cause():
    assert folded(("hot", "lamp:f0", ""), ("slow", "lamp:f0", "")) == {"hot: 0": ("slow: 1",)}
    assert folded(("slow", "lamp:f0", ""), ("hot", "lamp:f0", "")) == {"slow: 0": ("hot: 1",)}


@pytest.mark.parametrize("order", list(permutations(("hot", "slow", "dim"))))
def test_what_a_symptom_explains_is_told_under_the_cause_of_both(order):
    """In whatever order they stand in the file."""
    chain = {"hot": ("slow",), "slow": ("dim",), "dim": ()}
    assert folded(*((rule, "lamp:f0", "") for rule in order), named=chain) == {
        f"hot: {order.index('hot')}": tuple(f"{rule}: {number}" for number, rule in enumerate(order) if rule != "hot")}
