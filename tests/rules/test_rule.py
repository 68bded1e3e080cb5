"""What a rule's module must have."""

from __future__ import annotations

from types import ModuleType

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules import RULES
from diagrammer.rules.rule import Rule, finding, load
from diagrammer.text.place import Place
from tests.circuit.cases import system

DOC = """A lamp
is dark.

Why: nobody
sees.

Fix: light it.
"""


def module(doc: str | None = DOC, **parts) -> ModuleType:
    made = ModuleType("diagrammer.rules.whole.dark_lamp", doc)
    given = {"SEVERITY": "notice", "SOURCES": ["common practice"], "GOOD": "\nnodes: {}\n", "BAD": "\n\nnodes: {a: 1}\n",
             "check": lambda survey: ()}
    for name, value in {**given, **parts}.items():
        if value is not None:
            setattr(made, name, value)
    return made


def test_a_module_becomes_a_rule():
    made = module()
    assert load(made) == Rule(
        "dark-lamp", "whole", "notice", "A lamp is dark.", "nobody sees.", "light it.", ("common practice",),
        "nodes: {}\n", "nodes: {a: 1}\n", made.check, False, ())
    more = load(module(AFTER=True, SYMPTOMS=["voltage-drop"]))
    assert more.after is True and more.symptoms == ("voltage-drop",)


@pytest.mark.parametrize(("doc", "parts", "said"), [
    (None, {}, "dark-lamp: the docstring"), ("A lamp is dark.", {}, "dark-lamp: the docstring"),
    (DOC, {"SEVERITY": "grave"}, "SEVERITY is missing or unknown"), (DOC, {"SOURCES": None}, "SOURCES is missing"),
    (DOC, {"GOOD": None, "BAD": None}, "GOOD, BAD is missing"), (DOC, {"check": None}, "check is missing"),
    (DOC, {"SEVERITY": None}, "SEVERITY is missing"),
])
def test_what_is_missing_is_named(doc, parts, said):
    with pytest.raises(TypeError, match=said):
        load(module(doc, **parts))


def test_the_family_is_the_folder_however_deep():
    made = module()
    made.__name__ = "rules.whole.dark_lamp"
    assert load(made).family == "whole"


TEXT = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  horn: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {name: light, feed: bank/fuse 5 A -> lamp, wire: 14 AWG 1 m}
  - {name: sound, feed: bank/fuse 5 A -> horn, wire: 14 AWG 1 m}
"""
BOTH = Fact("wrong-domain", cables=("sound:r0", "light:f0"), nodes=("horn", "bank"), path=("bank", "horn"))


def survey() -> Survey:
    return Survey(system(TEXT))


def of(fact: Fact, **given):
    return finding(RULES["wrong-domain"].check.__module__, survey(), fact, "it is dark", **given)


def test_a_finding_says_of_a_fact_what_its_rule_says():
    rule, one = RULES["wrong-domain"], of(BOTH)
    assert (one.rule, one.severity, one.message) == (rule.name, rule.severity, "it is dark")
    assert (one.reason, one.fix, one.source) == (rule.why, rule.fix, "; ".join(rule.sources))
    assert one.nodes == BOTH.nodes and one.conductors == BOTH.cables and one.path == BOTH.path
    assert one.subjects == ("horn", "bank", "sound", "light") and not one.accepted and not one.symptoms


def test_what_is_given_goes_before_what_rule_and_fact_say():
    there = Place("case.yaml", 1, 1, 1, 2)
    one = of(BOTH, fix="turn it", severity="notice", at=there, nodes=["lamp"], conductors=["light:f0"])
    assert RULES["wrong-domain"].severity != "notice"
    assert (one.fix, one.severity, one.at) == ("turn it", "notice", there)
    assert (one.nodes, one.conductors, one.subjects) == (("lamp",), ("light:f0",), ("lamp", "light"))


def test_each_name_is_a_subject_once():
    assert of(Fact("wrong-domain", cables=("light:f0", "light:r0", "sound:f0"), nodes=("lamp", "lamp"))).subjects == (
        "lamp", "light", "sound")


def test_a_finding_stands_at_the_conductor_else_the_node_that_is_blamed():
    view = survey().start
    assert of(BOTH).at == view.cables["sound:r0"].place and of(BOTH).at.line == 9
    assert of(Fact("wrong-domain", nodes=("lamp", "bank"))).at.line == 5
    edge = next(key for key, data in view.edges.items()
                if data["form"] == "conductor" and data["value"].cable == "light:f0")
    assert of(Fact("wrong-domain", nodes=("lamp",), edge=edge)).at == view.cables["light:f0"].place
    assert of(Fact("wrong-domain", nodes=("lamp",), edge=edge, cables=("sound:f0",))).at.line == 9
