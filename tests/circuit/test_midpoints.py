"""Loads on the middle of a stack of batteries."""

from __future__ import annotations

import pytest

from diagrammer.circuit.midpoints import find
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system
from tests.circuit.stock import Case

BATTERY = "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah"


def stack() -> Case:
    case = Case().drop("bank", "main")
    case.nodes = {"b1": BATTERY, "b2": BATTERY, **case.nodes}
    case.line("link", "series: b1/fuse class-t 200 A -> b2, wire: 2/0 AWG 0.3 m")
    case.line("main", "feed: b2/fuse class-t 200 A -> feed-bar, return: b1 -> meter -> return-bar, "
                      "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")
    return case.loads("lamp-1", "lamp-2", volts="24 V").node("radio", "load, voltage: 12 V, power: 20 W")


def found(case: Case) -> list[tuple]:
    return [(fact.nodes[0], fact.drained, fact.spared, fact.volts) for fact in find(Survey(system(case.text)).after_domains)]


def test_nothing_on_the_middle():
    assert found(stack().drop("radio")) == []


def test_between_the_middle_and_the_foot():
    case = stack().line("radio", "feed: b1/fuse 10 A -> radio, return: return-bar -> radio, wire: 14 AWG 2 m")
    assert found(case) == [("radio", ("b1",), ("b2",), 12.0)]


def test_between_the_top_and_the_middle():
    case = stack().line("radio", "feed: feed-bar/fuse 10 A -> radio, return: b2 -> radio, wire: 14 AWG 2 m")
    assert found(case) == [("radio", ("b2",), ("b1",), 12.0)]


def test_an_equaliser_evens_it_out():
    case = stack().line("radio", "feed: b1/fuse 10 A -> radio, return: return-bar -> radio, wire: 14 AWG 2 m")
    case.node("equaliser", "other, ports: {main: dc, middle: lead}, power: 2 W")
    case.line("equaliser", "feed: feed-bar/fuse 10 A -> equaliser, return: return-bar -> equaliser, wire: 14 AWG 1 m")
    assert found(case) != []
    case.line("middle", "feed: b1/fuse 10 A -> equaliser.middle, return: none, wire: 14 AWG 1 m")
    assert found(case) == []


@pytest.mark.parametrize(("node", "spared"), [
    ("ac charger, output: 10 A, voltage: 12 V", True), ("converter, output: 10 A, voltage: 12 V", True),
    ("load, voltage: 12 V, power: 9 W", False),
])
def test_a_charger_of_its_own_evens_a_middle_out(node, spared):
    case = stack().node("own", node).line("own", "feed: own -> fuse 15 A/b1, return: b1 -> own, wire: 12 AWG 1 m")
    case.line("radio", "feed: b1/fuse 10 A -> radio, return: return-bar -> radio, wire: 14 AWG 2 m")
    names = {fact.nodes[0] for fact in find(Survey(system(case.text)).start)}
    assert names == (set() if spared else {"radio", "own"})
