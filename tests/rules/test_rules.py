"""Every rule: its own good netlist is silent, its bad one gives exactly the findings marked in it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from diagrammer import rules as rules_package
from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.explain import explain
from diagrammer.rules.run import check
from tests.rules.marks import marks


def findings(text: str, name: str):
    system, problems = read(text, f"{name}.yaml")
    assert system is not None, [f"{problem.at}: {problem.message}" for problem in problems]
    return check(system)


@pytest.mark.parametrize("name", RULES)
def test_good_is_sound(name):
    """Silent of its own rule, and without any other fault of the graph's checks."""
    found = findings(RULES[name].good, name)
    assert [one for one in found if one.rule == name and not one.accepted] == []
    system, _ = read(RULES[name].good, name)
    graph = {fact.rule for fact in Survey(system).facts}
    assert [one for one in found if one.rule in graph and one.severity != "notice" and not one.accepted] == []


@pytest.mark.parametrize("name", RULES)
def test_bad_gives_what_is_marked(name):
    expected = [mark for mark in marks(RULES[name].bad) if mark.rule == name]
    found = [one for one in findings(RULES[name].bad, name) if one.rule == name]
    assert expected, "no mark"
    said = "\n".join(f"{one.at} to {one.at.end_line}:{one.at.end_column} {one.message}" for one in found)
    assert len(found) == len(expected) and all(any(mark.fits(one) for one in found) for mark in expected), said


@pytest.mark.parametrize("name", RULES)
def test_findings_are_complete(name):
    system, _ = read(RULES[name].bad, f"{name}.yaml")
    cables = {wire.cable for wire in system.conductors}
    for one in findings(RULES[name].bad, name):
        if one.rule == name:
            assert one.message and one.reason and one.fix and one.source and one.subjects
            assert set(one.nodes) <= set(system.nodes) and set(one.conductors) <= cables
            assert len(set(one.nodes)) == len(one.nodes) and len(set(one.conductors)) == len(one.conductors)
            assert one.message[-1] not in ".!" and len(one.message) <= 300


@pytest.mark.parametrize("name", RULES)
def test_documentation(name):
    rule = RULES[name]
    assert re.fullmatch(r"[A-Z].*\.", rule.what) and rule.what.count(". ") == 0, "one sentence"
    assert rule.why.endswith(".") and rule.fix.endswith(".") and rule.sources
    page = explain(name)
    assert all(part in " ".join(page.split()) for part in (name, rule.severity, " ".join(rule.what.split())))


def test_a_rule_is_named_once():
    assert len(RULES) == len(set(RULES))


def test_every_file_of_a_family_is_a_rule_but_those_of_words():
    folder = Path(rules_package.__file__).parent
    files = sorted(path.relative_to(folder) for path in folder.glob("*/*.py") if not path.name.startswith("_"))
    assert list(rules_package.rules.__wrapped__()) == [path.stem.replace("_", "-") for path in files]
