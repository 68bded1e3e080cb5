"""What is said of poles, domains, loops and ac sources, in full, for each way the wording can go."""

from __future__ import annotations

import pytest

from diagrammer.circuit.measured_fact import Unmeasured
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules import RULES
from diagrammer.rules.run import check
from tests.circuit.cases import system
from tests.circuit.stock import Case

STACK = "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah"


def said(case: Case, rule: str) -> list[str]:
    return [one.message for one in check(system(case.text)) if one.rule == rule]


def lamps() -> Case:
    return Case().loads("lamp-1", "lamp-2", "lamp-3")


def line(case: Case, name: str, feed: str, back: str) -> Case:
    return case.load(name, line=f"feed: {feed} -> {name}, return: {back} -> {name}, wire: 14 AWG 3 m")


def test_load_of_another_voltage():
    assert said(lamps().load("radio", "24 V"), "wrong-domain") == [
        "`radio` is made for 24 V, but `bank` puts 12 V on this conductor"]


def test_window_of_another_voltage():
    assert said(lamps().load("radio", "20 .. 32 V"), "wrong-domain") == [
        "`radio` is made for 20 to 32 V, but `bank` puts 12 V on this conductor"]


def test_several_of_another_voltage():
    case = Case("24 V").loads("a", "b", "c", "d")
    assert said(case, "wrong-domain") == [
        "`a` is made for 12 V, like 3 more on its side, but `bank` puts 24 V on this conductor"]


def test_sources_of_two_voltages():
    case = lamps().node("bank2", "bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah")
    case.line("bad", "feed: bank2/fuse class-t 100 A -> feed-bar, return: bank2 -> return-bar, wire: 2 AWG 1 m")
    assert said(case, "wrong-domain") == ["`bank2` stands at 24 V, but `bank` puts 12 V on this conductor"]


def test_stack_stands_at_its_sum():
    case = Case().drop("bank", "main")
    case.nodes = {"b1": STACK, "b2": STACK, **case.nodes}
    case.line("link", "series: b1/fuse class-t 200 A -> b2, wire: 2/0 AWG 0.3 m")
    case.line("main", "feed: b2/fuse class-t 200 A -> feed-bar, return: b1 -> meter -> return-bar, "
                      "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}")
    case.loads("x", "y", volts="24 V").load("radio")
    assert said(case, "wrong-domain") == ["`radio` is made for 12 V, but `b2` puts 24 V on this conductor"]


def test_mains_on_direct_current():
    case = lamps().node("kettle", "ac load, power: 1 kW").line("bad", "bond: feed-bar -> kettle.L, wire: 14 AWG 2 m")
    assert said(case, "wrong-domain") == ["`kettle` is made for 120 V ac, but `bank` puts 12 V on this conductor"]


def test_uncontrolled():
    case = lamps().node("roof", "pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A")
    case.line("pv", "feed: roof -> fuse 15 A/feed-bar, wire: 10 AWG 3 m")
    assert said(case, "uncontrolled-source") == [
        "`roof` (20 to 24 V, up to 12.5 A) charges `bank` with no controller between"]


@pytest.mark.parametrize(("stated", "numbers"), [
    ("", "up to 33.3 A"), (", voltage: 24 V", "24 V, up to 16.7 A"),
    (", voltage: 12 V, output: 20 A", "12 V, up to 20 A")])
def test_an_uncontrolled_mill_is_told_with_what_it_states(stated, numbers):
    """400 W at the 12 V of the bank, or at its own voltage."""
    case = lamps().node("mill", f"wind, power: 400 W{stated}")
    case.line("mill", "feed: mill -> fuse 50 A/feed-bar, wire: 6 AWG 3 m")
    assert said(case, "uncontrolled-source") == [f"`mill` ({numbers}) charges `bank` with no controller between"]


@pytest.mark.parametrize(("many", "alike"), [
    (1, ""), (2, ", like 1 more on its side"), (3, ", like 2 more on its side")])
def test_several_of_another_voltage_on_one_line(many, alike):
    case = lamps().node("x", "bar, rating: 30 A, pair: return-bar")
    case.line("x", "feed: feed-bar/fuse 10 A -> x, return: none, wire: 14 AWG 1 m")
    for n in range(many):
        case.load(f"fan{n}", volts="24 V", line=f"feed: x -> fan{n}, return: return-bar -> fan{n}, wire: 14 AWG 1 m")
    assert said(case, "wrong-domain") == [f"`fan0` is made for 24 V{alike}, but `bank` puts 12 V on this conductor"]


def test_a_load_that_meets_inputs_of_another_voltage():
    case = lamps().node("x", "bar, rating: 30 A, pair: y").node("y", "bar, rating: 30 A")
    case.node("fan", "load, voltage: 48 V, power: 20 W")
    for name in ("up", "step"):
        case.node(name, "converter, voltage: 24 V, output: 2 A, input voltage: 12 V")
        case.line(name, f"feed: x -> {name}.in, wire: 14 AWG 1 m")
    case.line("fan", "feed: x -> fan, wire: 14 AWG 1 m")
    assert said(case, "wrong-domain") == [
        "`fan` is made for 48 V, but meets `up` on this conductor, which is made for 12 V"]


@pytest.mark.parametrize(("stated", "tail"), [("", ""), (", short circuit: 4 kA", "; up to 4000 A can flow")])
def test_short_circuit(stated, tail):
    case = lamps().line("bad", "feed: feed-bar/fuse 10 A -> return-bar, return: none, wire: 14 AWG 1 m")
    case.node("bank", f"bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, pair: return-bar{stated}")
    assert said(case, "short-circuit") == [f"this joins + and - of `bank` with nothing but wire between{tail}"]


def test_reversed():
    back = "return: return-bar -> lamp.+, wire: 14 AWG 3 m"
    case = lamps().load("lamp", line=f"feed: feed-bar/fuse 10 A -> lamp.-, {back}")
    assert said(case, "reversed-polarity") == [
        "`lamp` has feed and return swapped: + lands on the return side, - on the feed side"]


def test_return_on_the_feed_side():
    assert said(line(lamps(), "lamp", "feed-bar/fuse 10 A", "feed-bar"), "missing-return") == [
        "the return of `lamp` lands on the feed side of `bank`: it has no way back"]


def test_feed_on_the_return_side():
    assert said(line(lamps(), "lamp", "return-bar", "return-bar"), "unfed-node") == [
        "the feed of `lamp` lands on the return side of `bank`: no source reaches it"]


def test_bare_return():
    case = lamps().load("lamp", line="feed: feed-bar/fuse 10 A -> lamp, return: none, wire: 14 AWG 3 m")
    assert said(case, "missing-return") == [
        "`lamp` is fed from `bank` and has no way back: nothing lands on its return"]


def test_bank_without_a_return():
    case = lamps().line("main", "feed: bank/fuse class-t 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m")
    assert said(case, "missing-return") == ["`bank` gives current and has no way back: nothing lands on its return"]


def test_bar_without_its_link():
    case = lamps().node("r2", "bar, rating: 100 A").node("bar-2", "bar, rating: 100 A, pair: r2")
    case.line("sub", "feed: feed-bar/fuse 60 A -> bar-2, return: none, wire: 6 AWG 1 m")
    assert said(case.loads("a", "b", "c", "d", bar="bar-2"), "missing-return") == [
        "`r2` has no way back to `bank`: the returns of `a`, `b` and 2 others end there"]


def test_stray():
    case = lamps().node("step", "converter, voltage: 12 V, output: 20 A, input voltage: 12 V, common: none")
    case.node("panel", "panel, rating: 30 A").load("b", bar="panel")
    case.line("step", "feed: feed-bar/fuse 30 A -> step.in, wire: 8 AWG 1 m")
    case.line("out", "feed: step -> panel, wire: 8 AWG 1 m")
    assert said(line(case, "a", "panel/fuse 10 A", "return-bar"), "stray-return") == [
        "`a` is fed from `step` and returns to the side of `bank`"]


def test_unfed():
    case = lamps().node("p", "panel, rating: 60 A, pair: return-bar").loads("a", "b", bar="p")
    assert said(case, "unfed-node") == ["no source reaches `p`, nor `a` and `b` behind it"]


def test_open_ends():
    case = lamps().node("key", "switch, rating: 10 A").node("stud", "joint")
    case.line("one", "feed: feed-bar/fuse 5 A -> key.1, return: none, wire: 14 AWG 1 m")
    case.line("two", "feed: feed-bar/fuse 5 A -> stud, return: none, wire: 14 AWG 1 m")
    assert said(case, "open-end") == [
        "`key` leads nowhere: one of its sides is wired, the other is not",
        "`stud` leads nowhere: a single conductor lands on it"]


def test_unused():
    assert said(lamps().node("spare", "load, voltage: 12 V, power: 5 W"), "unused-node") == [
        "`spare` is declared and never wired"]


def test_two_sources_and_the_positions_that_let_them():
    case = Case().load("lamp").node("combi", "inverter charger, power: 2 kW, charge: 50 A")
    case.node("gen", "generator, power: 3 kW, neutral: floating").node("ac-panel", "ac panel, rating: 60 A")
    case.node("pedestal", "shore, rating: 30 A").node("outlets", "outlet, rating: 15 A")
    case.line("combi", "feed: feed-bar/fuse class-t 200 A -> combi, wire: 2/0 AWG 1 m")
    case.line("shore", "ac: pedestal -> breaker 2-pole 30 A -> combi.in, wire: [10 AWG 0.2 m, 2 m]")
    case.line("out", "ac: combi -> ac-panel, wire: 8 AWG 1 m")
    case.line("bad", "ac: gen -> breaker 2-pole 25 A -> ac-panel, wire: [10 AWG 0.2 m, 1 m]")
    case.line("outlets", "ac: ac-panel/breaker 15 A -> outlets, wire: 12 AWG 3 m")
    assert said(case, "two-ac-sources") == ["`gen` and `pedestal` can feed one net at once, with `combi` at bypass"]


def test_what_a_finding_carries():
    """The node in the wrong first, the cable, the names from the source to it, and its place."""
    case = lamps().load("radio", "24 V")
    one = next(one for one in check(system(case.text)) if one.rule == "wrong-domain")
    assert (one.nodes[0], one.conductors, one.severity) == ("radio", ("radio:f0",), "danger")
    assert one.path[0] == "bank" and one.path[-1] == "radio" and "feed-bar" in one.path
    text = case.text.splitlines()[one.at.line - 1]
    assert text[one.at.column - 1:one.at.end_column - 1] == "fuse 10 A -> radio"
    assert one.subjects == ("radio", one.nodes[1])


def test_a_joint_is_shown_where_it_is_written():
    case = Case("24 V").loads("y0", "y1", volts="24 V").node("radio", "load, voltage: 12 V, power: 20 W")
    case.line("radio", "feed: feed-bar/radio, return: return-bar -> radio, wire: 14 AWG 2 m")
    one = next(one for one in check(system(case.text)) if one.rule == "wrong-domain")
    assert one.message == "`radio` is made for 12 V, but `bank` puts 24 V on this joint"
    assert case.text.splitlines()[one.at.line - 1][one.at.column - 1:one.at.end_column - 1] == "feed-bar/radio"
    assert (one.nodes[0], one.conductors) == ("radio", ())


def test_loads_of_two_voltages_where_no_source_stands():
    case = lamps().node("stray", "bar, rating: 60 A, pair: return-bar")
    case.load("a", bar="stray").load("b", bar="stray").load("radio", "24 V", bar="stray")
    assert said(case, "wrong-domain") == [
        "`radio` is made for 24 V, but meets `a` on this conductor, which is made for 12 V"]


def test_a_shunt_that_faces_no_bank_that_is_known(monkeypatch):
    monkeypatch.setattr(Survey, "of", lambda survey, rule: (Fact(rule, nodes=("meter",)),))
    (one,) = RULES["shunt-backwards"].check(Survey(system(lamps().text)))
    assert one.message == "the system side of the shunt `meter` faces the bank"


def test_returns_that_several_conductors_bring_past_a_shunt_come_from_no_one_place(monkeypatch):
    fact = Unmeasured("unmeasured-return", nodes=("return-bar", "lamp-1", "lamp-2"), things=("lamp-1", "lamp-2"),
                      landing="return-bar", shunt="meter", bank="bank")
    monkeypatch.setattr(Survey, "of", lambda survey, rule: (fact,))
    (one,) = RULES["unmeasured-return"].check(Survey(system(lamps().text)))
    assert one.message == ("the returns of `lamp-1` and `lamp-2` land on `return-bar`, on the bank's side of the shunt "
                           "`meter`, which does not measure them")
