"""Findings accepted beside what they are about, and acceptances that match nothing."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules.acceptance import Acceptance, acceptances
from diagrammer.rules.run import check
from diagrammer.text.finding import Finding
from diagrammer.text.place import Place

TEXT = """
nodes:
  bank: {{kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah}}
  panel: {{kind: panel, rating: 30 A}}
  fan: {{kind: load, voltage: 24 V, power: 24 W}}
  radio: {{kind: load, voltage: 12 V, power: 20 W{node}}}
circuits:
  - {{name: main, feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}}
  - {{name: fan, feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m{other}}}
  - {{name: radio, feed: panel/fuse 5 A -> radio, wire: 14 AWG 2 m{circuit}}}
"""
ACCEPT = ", accept: {wrong-domain: it has a converter built in}"


def found(**where: str):
    system, problems = read(TEXT.format(**{"node": "", "circuit": "", "other": "", **where}).lstrip())
    assert system is not None, problems
    return [(one.rule, one.accepted) for one in check(system) if one.rule in ("wrong-domain", "unmatched-acceptance")]


def test_not_accepted():
    assert found() == [("wrong-domain", "")]


def test_accepted_at_the_node():
    assert found(node=ACCEPT) == [("wrong-domain", "it has a converter built in")]


def test_accepted_at_the_circuit():
    assert found(circuit=ACCEPT) == [("wrong-domain", "it has a converter built in")]


def test_accepted_beside_something_else():
    assert found(other=ACCEPT) == [("unmatched-acceptance", ""), ("wrong-domain", "")]


def test_findings_are_in_the_order_of_the_file():
    system, _ = read(TEXT.format(node="", circuit="", other=ACCEPT).lstrip())
    findings = check(system)
    assert [one.at for one in findings] == sorted(one.at for one in findings)
    assert findings == check(system)


def test_what_is_accepted_at_a_node_is_accepted_only_where_it_comes_first():
    """The bank is named in the finding about the radio, too."""
    text = TEXT.replace("capacity: 100 Ah", "capacity: 100 Ah, accept: {{wrong-domain: not here}}")
    system, problems = read(text.format(node="", circuit="", other="").lstrip())
    assert system is not None, problems
    (one,) = [one for one in check(system) if one.rule == "wrong-domain"]
    assert "bank" not in one.nodes[:1] and not one.accepted


HERE = Place("case.yaml", 1, 1, 1, 2)


def test_what_is_accepted_at_nodes_and_at_circuits():
    system, problems = read(TEXT.format(node=ACCEPT, circuit=ACCEPT.replace("has", "will have"), other="").lstrip())
    assert system is not None, problems
    assert [(one.owner, one.circuit, one.rule, one.reason) for one in acceptances(system)] == [
        ("radio", False, "wrong-domain", "it has a converter built in"),
        ("radio", True, "wrong-domain", "it will have a converter built in")]


@pytest.mark.parametrize(("circuit", "nodes", "conductors", "covered"), [
    (False, ("fan", "radio"), (), True), (False, ("radio", "fan"), (), False), (False, (), ("fan:f0",), False),
    (True, ("radio",), ("fan:f1",), True), (True, (), ("fan:f0", "radio:f0"), True),
    (True, (), ("radio:f0", "fan:f0"), False), (True, ("fan",), (), False), (True, ("fan",), ("radio:f0",), False),
])
def test_a_node_is_blamed_where_it_comes_first_a_circuit_by_its_first_conductor(circuit, nodes, conductors, covered):
    """A node and a circuit may have the same name."""
    found = Finding("wrong-domain", "danger", "", "", "", "", HERE, nodes=nodes, conductors=conductors)
    assert Acceptance("fan", circuit, "wrong-domain", "it is meant", HERE).covers(found) is covered
    assert not Acceptance("fan", circuit, "short-circuit", "it is meant", HERE).covers(found)
