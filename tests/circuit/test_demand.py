"""What loads ask of what stands before them, through converters and inverters, and how much at once."""

from __future__ import annotations

import pytest

from diagrammer.circuit.demand import at_once, demand, share
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = """
bank: bank, chemistry: lifepo4, voltage: 24 V, capacity: 200 Ah
bar: bar, rating: 300 A
down: converter, voltage: 12 V, output: 20 A, input voltage: 24 V, efficiency: 80 %
fan: load, voltage: 12 V, power: 60 W, hours: 10
radio: load, voltage: 12 V, current: 2 A, count: 2, hours: 0.2
winch: load, voltage: 24 V, current: 50 A, hours: 0.1
combi: inverter charger, power: 2 kW, charge: 40 A
kettle: ac load, power: 900 W, start: 1 kW
shore: shore, rating: 15 A
"""
LINES = """
main: feed: bank/fuse 200 A -> bar, return: none, wire: 2/0 AWG 1 m
down: feed: bar/fuse 30 A -> down.in, return: down.in -> bank, wire: 10 AWG 1 m
fan: feed: down/fuse 10 A -> fan, wire: 14 AWG 1 m
radio: feed: down/fuse 10 A -> radio, wire: 14 AWG 1 m
winch: feed: bar/fuse 60 A -> winch, return: winch -> bank, wire: 6 AWG 1 m
combi: feed: bar/fuse 150 A -> combi, return: combi -> bank, wire: 2/0 AWG 1 m
kettle: ac: combi/breaker 15 A -> kettle, wire: 14 AWG 1 m
shore: ac: shore/breaker 2-pole 15 A -> combi.in, wire: 12 AWG 1 m
"""


def asked(nodes: str = NODES, lines: str = LINES, head: str = ""):
    one = system(netlist(nodes, lines, head=head))
    survey = Survey(one)
    return demand(survey.start), survey


def watts(parts) -> dict[str, float]:
    return {part.load.name: part.watts * part.factor for part in parts}


def test_a_bank_is_asked_for_the_losses_of_what_stands_between():
    """What is not stated is 90 % (common practice)."""
    parts = asked()[0].behind(("bank.+",))
    assert watts(parts) == pytest.approx({"winch": 1200, "fan": 60 / 0.8, "radio": 48 / 0.8, "kettle": 900 / 0.9})


def test_current_at_the_start_of_a_way():
    """Amperes stay amperes where no converter changes the voltage; what is said in watts draws more at a lower one."""
    parts = {part.load.name: part for part in asked()[0].behind(("bank.+",))}
    assert parts["winch"].amps(20) == 50
    assert parts["radio"].amps(20) == pytest.approx(48 / 0.8 / 20)
    assert parts["fan"].amps(20) == pytest.approx(60 / 0.8 / 20)
    direct = {part.load.name: part for part in asked()[0].behind(("down.+",))}
    assert (direct["radio"].amps(13), direct["fan"].amps(12)) == (4, 5)
    assert parts["kettle"].start == 1000 and parts["fan"].start == 0


def test_what_nothing_passes_through_is_not_asked():
    one = asked()[0]
    assert [part.load.name for part in one.behind(("bank.+",), without=("F1",))] == []
    assert [part.load.name for part in one.behind(("bank.+",), sorts=("wire",))] == []
    assert [part.load.name for part in one.behind(("shore.L",))] == []  # charging is no load, bypass one position
    assert [part.load.name for part in one.behind(("shore.L",), {"combi": "bypass"})] == ["kettle"]
    assert [part.load.name for part in one.behind(("shore.L",), {"combi": "inverting"})] == []


def test_each_load_counts_once_with_the_first_way_to_it():
    """A load with two feeds, directly and through a converter."""
    lines = LINES.replace("winch: feed", "twice: feed: down/fuse 15 A -> winch, return: none, wire: 12 AWG 1 m\nwinch: feed")
    parts = asked(NODES, lines)[0].behind(("bank.+",))
    assert [part.load.name for part in parts].count("winch") == 1 and watts(parts)["winch"] == 1200


def test_makers_are_those_whose_input_is_reached_each_once():
    one, survey = asked()
    assert [node.name for node in one.makers(("down.in.+", "combi.+", "down.in.+", "bar"))] == ["down", "combi"]
    assert one.makers(("down.+", "combi.out.L")) == ()
    nodes = survey.system.nodes
    assert (share(nodes["down"]), share(nodes["combi"])) == (0.8, 0.9)
    assert (one.outputs(nodes["down"]), one.outputs(nodes["combi"])) == (("down.+",), ("combi.out.L",))
    assert (one.making(nodes["down"]), one.making(nodes["combi"])) == ({}, {"combi": "inverting"})


LOOP = NODES + "up: converter, voltage: 24 V, output: 5 A, input voltage: 12 V\n"


def test_converters_that_feed_each_other_are_gone_through_once():
    lines = LINES + """
up: feed: down/fuse 15 A -> up.in, wire: 12 AWG 1 m
round: feed: up/fuse 10 A -> bar, return: up -> bank, wire: 14 AWG 1 m
"""
    parts = asked(LOOP, lines)[0].behind(("bank.+",))
    assert watts(parts) == pytest.approx({"winch": 1200, "fan": 75, "radio": 60, "kettle": 1000})


@pytest.mark.parametrize("kind", ["inverter, power: 1 kW, neutral: floating", "inverter charger, power: 1 kW, charge: 20 A",
                                  "transformer, power: 1 kW"])
def test_an_ac_load_is_asked_through_whatever_makes_its_voltage(kind):
    """An isolating transformer passes on 95 % (common practice)."""
    start, port, share_ = ("inv.out.L", "second.in", 0.95) if "transformer" in kind else ("bank.+", "second", 0.9)
    own = f"""
bank: bank, chemistry: lifepo4, voltage: 24 V, capacity: 200 Ah
inv: inverter, power: 2 kW, neutral: floating
second: {kind}
kettle: ac load, power: 500 W
"""
    feed = ("second: ac: inv/breaker 15 A -> second.in" if port == "second.in" else "second: feed: bank/fuse 100 A -> second")
    lines = f"""
inv: feed: bank/fuse 200 A -> inv, wire: 2/0 AWG 1 m
{feed}, wire: 2 AWG 1 m
kettle: ac: second/breaker 10 A -> kettle, wire: 14 AWG 1 m
"""
    assert watts(asked(own, lines)[0].behind((start,))) == pytest.approx({"kettle": 500 / share_})


SIDES = """
bank: bank, chemistry: lifepo4, voltage: 24 V, capacity: 200 Ah
one: converter, voltage: 12 V, output: 20 A, input voltage: 24 V
two: converter, voltage: 12 V, output: 20 A, input voltage: 24 V
far: converter, voltage: 12 V, output: 20 A, input voltage: 24 V
left: inverter, power: 1 kW, neutral: floating, set: pair
right: inverter charger, power: 1 kW, charge: 20 A, set: pair
lone: inverter, power: 1 kW, neutral: floating
iso: transformer, power: 1 kW
fan: load, voltage: 12 V, power: 10 W
far-fan: load, voltage: 12 V, power: 10 W
kettle: ac load, power: 500 W
"""
BESIDE = """
one: feed: bank/fuse 20 A -> one.in, wire: 10 AWG 1 m
two: feed: bank/fuse 20 A -> two.in, wire: 10 AWG 1 m
far: feed: bank/fuse 20 A -> far.in, wire: 10 AWG 1 m
left: feed: bank/fuse 60 A -> left, wire: 4 AWG 1 m
right: feed: bank/fuse 60 A -> right, wire: 4 AWG 1 m
lone: feed: bank/fuse 60 A -> lone, wire: 4 AWG 1 m
fan: feed: one/fuse 10 A -> fan, wire: 14 AWG 1 m
fan-two: feed: two/fuse 10 A -> fan, return: two -> fan, wire: 14 AWG 1 m
far-fan: feed: far/fuse 10 A -> far-fan, wire: 14 AWG 1 m
kettle: ac: left/breaker 10 A -> kettle, wire: 14 AWG 1 m
kettle-two: ac: right/breaker 10 A -> kettle, wire: 14 AWG 1 m
iso: ac: lone/breaker 10 A -> iso.in, wire: 14 AWG 1 m
"""


@pytest.mark.parametrize(("unit", "beside"), [
    ("one", ["one", "two"]), ("two", ["one", "two"]), ("far", ["far"]), ("left", ["left", "right"]),
    ("right", ["left", "right"]), ("lone", ["lone"]),
])
def test_units_side_by_side_are_those_whose_outputs_meet(unit, beside):
    one, survey = asked(SIDES, BESIDE)
    assert [node.name for node in one.side_by_side(survey.system.nodes[unit])] == beside


@pytest.mark.parametrize("joint", ["join.1", "which.1"])
def test_outputs_meet_through_a_relay_and_a_selector(joint):
    nodes = SIDES + "join: relay, rating: 30 A, coil: 12 V\nwhich: selector, rating: 30 A\n"
    end = " -> fan, return: none" if joint == "join.1" else ", return: none, wire: 10 AWG 1 m\nrest: feed: which -> fan, return: none"
    lines = BESIDE + f"tie: feed: far/fuse 20 A -> {joint}{end}, wire: 10 AWG 1 m\n"
    one, survey = asked(nodes, lines.replace("return: two -> fan", "return: none"))
    assert [node.name for node in one.side_by_side(survey.system.nodes["far"])] == ["one", "two", "far"]


def test_units_of_several_lines_are_side_by_side_where_one_line_meets():
    """Of a unit that makes two lines only one may be joined to its neighbour."""
    nodes = """
bank: bank, chemistry: lifepo4, voltage: 24 V, capacity: 200 Ah
wide: inverter, power: 3 kW, neutral: floating, phases: 2+N, set: pair
slim: inverter, power: 1 kW, neutral: floating, set: pair
panel: ac panel, rating: 50 A, phases: 2+N
"""
    lines = """
wide: feed: bank/fuse 200 A -> wide, wire: 2/0 AWG 1 m
slim: feed: bank/fuse 60 A -> slim, wire: 4 AWG 1 m
out: ac: wide/breaker 2-pole 20 A -> panel, wire: 12 AWG 1 m
beside: ac: slim/breaker 15 A -> panel.L1, wire: 14 AWG 1 m
"""
    one, survey = asked(nodes, lines)
    for unit in ("wide", "slim"):
        assert [node.name for node in one.side_by_side(survey.system.nodes[unit])] == ["wide", "slim"]


@pytest.mark.parametrize(("between", "passes"), [
    ("switch 100 A", True), ("switch 100 A open", False), ("switch float 100 A", True), ("fuse 100 A", True),
    ("contact", True), ("which.1", True), ("isolator", False),
])
def test_what_may_stand_before_a_load(between, passes):
    """Switches that are closed or that something moves by itself, relays and selectors; no spare switch that rests
    open and no charge splitter."""
    nodes = """
bank: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah
contact: relay, rating: 100 A, coil: 12 V
which: selector, rating: 100 A
isolator: isolator, rating: 100 A
fan: load, voltage: 12 V, power: 10 W
"""
    way = {"which.1": "which.1, return: none, wire: 2 AWG 1 m\nrest: feed: which -> fan, return: fan -> bank",
           "isolator": "isolator.1 -> fan", "contact": "contact.1 -> fan"}.get(between, f"{between} -> fan")
    parts = asked(nodes, f"fan: feed: bank/fuse 100 A -> {way}, wire: 2 AWG 1 m")[0].behind(("bank.+",))
    assert [part.load.name for part in parts] == (["fan"] if passes else [])


def test_at_once_of_momentary_loads_the_largest_alone():
    """Winch and radio run for moments: the winch counts; a derived state has everything on."""
    one, survey = asked()
    parts = one.behind(("bank.+",))
    found = at_once(survey.study, parts, lambda part: part.watts * part.factor)
    assert found.value == pytest.approx(75 + 1000 + 1200)
    assert set(found.loads) == {"fan", "kettle", "winch"} and found.state == "parked, nothing charges"
    assert at_once(survey.study, (), lambda part: part.watts).value == 0


def test_at_once_takes_the_state_in_which_most_is_on():
    head = "states: {asleep: {kettle: off, winch: off, fan: off}, busy: {radio: off}, idle: {winch: off}}"
    one, survey = asked(head=head)
    found = at_once(survey.study, iter(one.behind(("bank.+",))), lambda part: part.watts * part.factor)
    assert (found.state, set(found.loads)) == ("busy", {"fan", "kettle", "winch"})
    assert found.value == pytest.approx(75 + 1000 + 1200)
