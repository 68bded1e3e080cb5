"""What a fact of voltage domains says: who stands on which side, the path between, and where the cut goes."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import expect, system
from tests.circuit.stock import Case
from tests.circuit.test_domain_cases import PV, SUN, converter, feeding, two_banks


def facts(case: Case) -> dict:
    return {fact.mark: fact for fact in Survey(system(case.text)).domains}


def test_each_finding_names_the_one_it_parts():
    case = Case("24 V").loads("y0", "y1", "y2", volts="24 V").load("x0").load("x1", "13 V")
    case.load("y3", "24 V", line="feed: feed-bar -> y3, wire: 14 AWG 3 m")  # nearer than the bank
    found = facts(case)
    assert {mark: fact.wrong.node for mark, fact in found.items()} == {"wrong-domain@x0:f0": "x0", "wrong-domain@x1:f0": "x1"}
    assert {(fact.right.node, fact.many) for fact in found.values()} == {("bank", 2)}
    assert found["wrong-domain@x1:f0"].path == ("bank", "F1", "feed-bar", "F6", "x1")


def test_the_foremost_of_a_side_is_its_storage():
    case = Case().loads("lamp-1", "lamp-2").load("radio", "24 V", line="feed: stud/fuse 10 A -> radio, wire: 14 AWG 2 m")
    case.node("stud", "bar, rating: 100 A, pair: return-bar")
    case.node("bank2", "bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah")
    case.line("two", "feed: bank2/fuse class-t 100 A -> stud, return: bank2 -> return-bar, wire: 2 AWG 1 m")
    case.line("bad", feeding("feed: stud/fuse 30 A -> feed-bar"))
    (fact,) = facts(case).values()
    assert (fact.mark, fact.right.node, fact.many) == ("wrong-domain@bad:f0", "bank", 2)
    assert fact.path[0] == "bank" and fact.path[-1] == fact.wrong.node == "radio"  # the nearest behind the wire


def test_what_suits_a_part_of_the_wrong_side_stands_on_the_right_one():
    """A claim takes no side only where it suits all of them."""
    case = Case("24 V").loads("y0", "y1", volts="24 V").node("sub", "bar, rating: 100 A, pair: return-bar")
    case.line("sub", "feed: feed-bar/fuse 60 A -> sub, wire: 6 AWG 1 m")
    case.load("w1", "14 V", "sub").load("w2", "12 V", "sub")
    expect(case.load("wide", "11 .. 60 V", "sub").text, "wrong-domain@sub:f0")
    expect(case.load("wide", "12.5 .. 60 V", "sub").text, "wrong-domain@w1:f0 wrong-domain@w2:f0")


def test_a_resistor_beside_the_wrong_wire_is_no_second_one():
    """It does not keep the potential."""
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"))
    case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12"))
    case.line("sense", "feed: feed-bar/fuse 1 A -> resistor 100 Ω -> panel-12, return: none, wire: [14 AWG 1 m, 1 m]")
    assert list(facts(case)) == ["wrong-domain@bad:f0"]


def test_of_a_tie_the_first_in_the_file_though_a_position_joins_them():
    """Loads of two voltages, no bank that says which: the file's order, not that of the nets that a selector joins."""
    case = Case(head="states: {both: {sel: both}}").drop("bank", "meter", "main")
    case.node("machine", "alternator, output: 60 A").node("sel", "selector, rating: 100 A")
    case.line("machine", "feed: machine -> fuse 80 A/feed-bar, wire: 4 AWG 1 m")
    case.node("second", "bar, rating: 100 A, pair: return-bar").load("b", "24 V", "second").load("a", "12 V")
    case.line("one", "feed: feed-bar/fuse 60 A -> sel.1, wire: 6 AWG 1 m")
    case.line("two", "feed: second/fuse 60 A -> sel.2, wire: 6 AWG 1 m")
    assert [(fact.right.node, fact.wrong.node) for fact in facts(case).values()] == [("b", "a")]


def test_one_line_that_parts_two_voltages_is_named_once():
    """What it settles needs no second cut."""
    case = Case().loads("lamp-1", "lamp-2").node("sub", "bar, rating: 100 A, pair: return-bar")
    case.line("sub", "feed: feed-bar/fuse 60 A -> sub, wire: 6 AWG 1 m")
    case.loads("x0", "x1", "x2", volts="24 V", bar="sub").load("y0", "48 V", "sub")
    expect(case.text, "wrong-domain@sub:f0")


def sources(case: Case) -> dict[str, tuple[str, str]]:
    return {mark: (fact.bank, fact.source) for mark, fact in facts(case).items()}


def test_the_array_and_the_bank_it_lands_on():
    case = Case().load("lamp", line="feed: feed-bar -> lamp, wire: 14 AWG 3 m")  # nearer than the bank
    case.node("roof", PV).node("roof-2", PV)
    case.line("pv", "feed: roof -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    case.line("pv2", "feed: roof-2 -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    assert sources(case) == {"uncontrolled-source@pv:f0": ("bank", "roof"), "uncontrolled-source@pv2:f0": ("bank", "roof-2")}


def test_past_its_controller_the_array_is_named_and_not_the_port():
    case = Case().load("lamp").node("roof", PV).node("sun", SUN)
    case.line("pv", "feed: roof -> sun.pv, wire: 10 AWG 3 m").line("sun", "feed: sun -> breaker 40 A/feed-bar, wire: 8 AWG 1 m")
    case.line("bad", "feed: sun.pv -> fuse 30 A/feed-bar, return: none, wire: 10 AWG 1 m")
    assert sources(case) == {"uncontrolled-source@bad:f0": ("bank", "roof")}


def test_a_turbine_past_its_controller():
    case = Case().load("lamp").node("mill", "wind, power: 300 W").node("brake", "wind charger, output: 30 A")
    case.line("mill", "feed: mill -> brake.in, wire: 8 AWG 3 m").line("brake", "feed: brake -> fuse 40 A/feed-bar, wire: 8 AWG 1 m")
    assert sources(case) == {}
    case.line("bad", "feed: brake.in -> fuse 30 A/feed-bar, return: none, wire: 8 AWG 1 m")
    assert sources(case) == {"uncontrolled-source@bad:f0": ("bank", "mill")}


@pytest.mark.parametrize("other", ["dc charger, output: 20 A", "converter, voltage: 24 V, output: 5 A"])
def test_the_input_of_a_charger_or_converter_is_not_meant_for_an_array(other):
    case = Case().load("lamp").node("roof", PV).node("other", other)
    case.line("other", "feed: feed-bar/fuse 30 A -> other.in, wire: 10 AWG 1 m")
    case.line("pv", "feed: roof -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    assert sources(case) == {"uncontrolled-source@pv:f0": ("bank", "roof")}


def test_the_output_of_a_wind_charger_is_not_meant_for_a_turbine():
    case = Case().load("lamp").node("mill", "wind, power: 300 W").node("brake", "wind charger, output: 30 A")
    case.line("brake", "feed: brake -> fuse 40 A/feed-bar, wire: 8 AWG 1 m")
    case.line("mill", "feed: mill -> fuse 40 A/feed-bar, wire: 8 AWG 3 m")
    assert sources(case) == {"uncontrolled-source@mill:f0": ("bank", "mill")}


def test_a_port_for_modules_without_any_is_no_uncontrolled_source():
    case = Case().load("lamp").node("sun", SUN).node("roof", PV).node("sun-2", SUN)
    case.line("bad", "feed: feed-bar/fuse 30 A -> sun.pv, return: none, wire: 10 AWG 1 m")
    case.line("pv", "feed: roof -> sun-2.pv, wire: 10 AWG 3 m").line("sun-2", "feed: sun-2 -> breaker 40 A/feed-bar, wire: 8 AWG 1 m")
    assert sources(case) == {}


def test_a_dump_controller_holds_a_turbine_and_no_array():
    case = Case().load("lamp").node("mill", "wind, power: 300 W, voltage: 12 V").node("roof", PV)
    case.node("brake", "dump controller, rating: 60 A").node("heater", "load, voltage: 12 V, power: 400 W")
    case.line("mill", "feed: mill -> fuse 40 A/feed-bar, wire: 8 AWG 2 m")
    case.line("brake", "feed: feed-bar/fuse 60 A -> brake, wire: 6 AWG 1 m")
    case.line("heater", "feed: brake.dump -> heater, wire: 6 AWG 1 m")
    assert sources(case) == {}
    case.line("pv", "feed: roof -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    assert sources(case) == {"uncontrolled-source@pv:f0": ("bank", "roof")}


def test_a_string_of_modules_that_a_bank_taps():
    """The next module's - on that net is no storage: the tap is wrong, not the link of the string."""
    case = Case().load("lamp").node("roof", PV).node("roof-2", PV).node("sun", SUN)
    case.line("string", "series: roof -> roof-2, wire: 10 AWG 1 m")
    case.line("pv", "feed: roof-2 -> sun.pv, return: roof -> sun.pv, wire: 10 AWG 3 m")
    case.line("sun", "feed: sun -> breaker 40 A/feed-bar, wire: 8 AWG 1 m")
    case.line("tap", "feed: roof -> fuse 15 A/feed-bar, return: none, wire: 10 AWG 2 m")
    assert sources(case) == {"uncontrolled-source@tap:f0": ("bank", "roof")}


def test_the_fault_of_two_positions_is_parted_in_both():
    case = two_banks("12 V", "").loads("lamp-1", "lamp-2").load("radio", "24 V")
    (fact,) = facts(case).values()
    assert fact.mark == "wrong-domain@radio:f0" and fact.path[-1] == "radio" and fact.right.role == "storage"


@pytest.mark.parametrize(("loads", "blamed"), [(2, "bad"), (0, "out")])
def test_of_single_wires_the_one_that_fewest_would_miss(loads, blamed):
    """Between a converter and the wire past it; where nobody would miss either, the nearer to what is wrong."""
    case = converter(Case("24 V").loads("y0", "y1", volts="24 V"), loads=0)
    case.loads(*(f"w{number}" for number in range(loads)), volts="9 .. 32 V", bar="panel-12")
    assert list(facts(case.line("bad", feeding("feed: feed-bar/fuse 30 A -> panel-12")))) == [f"wrong-domain@{blamed}:f0"]
