"""What a check sees after faults were found, and what it says of terminals."""

from __future__ import annotations

import pytest

from diagrammer.circuit.graph import edges
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from tests.circuit.cases import system

TEXT = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  studs: {kind: bar, rating: 100 A, pair: back}
  back: {kind: bar, rating: 100 A}
  lone: {kind: bar, rating: 100 A}
  metal: {kind: chassis}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  horn: {kind: load, voltage: 12 V, power: 20 W}
  pedestal: {kind: shore, rating: 16 A}
  galley: {kind: outlet, rating: 15 A}
circuits:
  - {name: main, feed: bank -> fuse 50 A -> studs, return: bank -> back, wire: [6 AWG 1 m, 1 m]}
  - {name: lamp, feed: studs/fuse 5 A F-lamp -> lamp, wire: 14 AWG 1 m}
  - {name: horn, feed: studs/fuse 5 A F-horn -> horn, wire: 14 AWG 1 m}
  - {name: shore, ac: pedestal -> breaker 15 A -> galley, wire: [12 AWG 1 m, 1 m]}
"""


def view():
    return Survey(system(TEXT)).start


def lines(one) -> set[str]:
    return {data["value"].circuit for *_, data in edges(one.graph) if data["form"] in ("conductor", "joint")}


def test_a_blamed_conductor_takes_its_whole_line_out_and_excuses_its_nodes():
    start = view()
    after = start.without([Fact("a-rule", cables=("lamp:f0", "horn:f0"), nodes=("lamp", "bank"), excuses=("galley",))])
    assert lines(start) == {"main", "lamp", "horn", "shore"} and lines(after) == {"main", "horn", "shore"}
    assert after.blamed == {"lamp:f0"} and after.out == {"lamp"} and after.crossed == set()
    assert after.named == {"galley"} and after.excused == {"studs", "F-lamp", "lamp", "galley"} | {"back"}
    assert after.whole is start.whole and after.everything.graph is start.whole


def test_a_blamed_node_takes_no_line_out():
    start = view()
    after = start.without([Fact("a-rule", nodes=("lamp", "horn"))])
    assert after.named == {"lamp"} and after.excused == {"lamp"} and after.graph is start.graph
    assert start.without([]) is start


def test_what_was_blamed_before_stays_blamed():
    first = view().without([Fact("a-rule", cables=("lamp:f0",))], poles=True)
    both = first.without([Fact("a-rule", cables=("horn:f0",)), Fact("a-rule", nodes=("galley",))])
    assert both.blamed == {"lamp:f0", "horn:f0"} and both.out == {"lamp", "horn"} and lines(both) == {"main", "shore"}
    assert both.crossed == first.crossed == {"lamp"} and {"lamp", "horn", "galley"} <= both.excused
    assert both.named == {"galley"}


def test_a_bolted_joint_is_blamed_by_its_edge():
    start = view()
    key = next(key for *_, key, data in edges(start.graph) if data["form"] == "joint" and data["value"].circuit == "lamp")
    assert start.line(Fact("a-rule", nodes=("lamp",), edge=key)) == "lamp" and start.line(Fact("a-rule", nodes=("lamp",))) == ""
    assert lines(start.without([Fact("a-rule", nodes=("lamp",), edge=key)])) == {"main", "horn", "shore"}


@pytest.mark.parametrize(("terminal", "side"), [
    ("bank.+", "+"), ("bank.-", "-"), ("studs", "+"), ("back", "-"), ("lone", ""), ("metal", "-"), ("F-lamp.1", "")])
def test_the_side_that_a_terminal_says(terminal, side):
    assert view().side(terminal) == side


@pytest.mark.parametrize(("node", "hot"), [("bank", ("bank.+",)), ("pedestal", ("pedestal.L",)), ("galley", ("galley.L",))])
def test_what_is_no_way_back_is_hot(node, hot):
    assert view().hot(node, "main") == hot


def test_the_earth_of_an_input_of_its_own_is_not_hot():
    text = TEXT.replace("  galley:", "  box: {kind: transformer, power: 1 kW}\n  galley:").replace("15 A -> galley", "15 A -> box.in")
    assert Survey(system(text)).start.hot("box", "in") == ("box.in.L",)
