"""What is said of crossed poles: whose terminals meet, what stands on the wrong side, over which way."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import expect, netlist, system
from tests.circuit.stock import Case
from tests.circuit.test_pole_cases import lamps, panel, plain, second, sun

BAD = "feed: feed-bar/fuse 10 A -> return-bar, return: none, wire: 14 AWG 1 m"
BACK = ("feed-bar/fuse 10 A", "feed-bar")  # a load's two leads, both on the feed bar
SWAPPED = "feed: bank.-/fuse class-t 200 A -> feed-bar, return: bank.+ -> meter -> return-bar, " \
          "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}"


LOAD, BANK = "load, voltage: 12 V, power: 20 W", "bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah"
CHARGER = "dc charger, output: 30 A, voltage: 12 V, input voltage: 12 V"


def found(case: Case) -> list:
    return list(Survey(system(case.text)).poles)


def charger() -> Case:
    case = lamps().node("pedestal", "shore, rating: 30 A")
    case.node("charger", "ac charger, voltage: 12 V, output: 20 A, outputs: 2")
    case.line("shore", "ac: pedestal -> breaker 2-pole 15 A -> charger.in, wire: [12 AWG 0.2 m, 1 m]")
    return case.line("out", "feed: charger -> fuse 30 A/feed-bar, return: charger -> return-bar, wire: 8 AWG 1 m")


SECOND_OUTPUT = "feed: charger.2/fuse 10 A -> return-bar, return: none, wire: 14 AWG 1 m"


@pytest.mark.parametrize("case, mark, source, ends, path", [
    (lamps().line("bad", BAD), "bad:f0", "bank", ("bank.+", "bank.-"), ("feed-bar", "F5", "return-bar")),
    (sun(lamps(), "feed-bar"), "sun:r0", "sun", ("sun.+", "sun.-"), ("feed-bar", "sun")),
    (lamps().line("bad", "feed: bank.+ -> bank.-, return: none, wire: 14 AWG 1 m"), "bad:f0",
     "bank", ("bank.+", "bank.-"), ("bank",)),
    (lamps().line("bad", "feed: feed-bar/return-bar, return: none"), "return-bar",
     "bank", ("bank.+", "bank.-"), ("feed-bar", "return-bar")),
    (charger().line("bad", SECOND_OUTPUT), "bad:f0",  # a single lead stands over the charger's own -
     "charger", ("charger.2", "charger.-"), ("return-bar", "F6", "charger")),
], ids=["bar to bar", "a charger", "across a bank", "bolted", "a second output"])
def test_a_short_circuit(case, mark, source, ends, path):
    fact, = found(case)
    assert (fact.mark, fact.source, fact.ends, fact.path) == (f"short-circuit@{mark}", source, ends, path)


def test_a_bank_whose_posts_are_joined_and_nothing_else():
    text = netlist("bank: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah",
                   "bad: feed: bank.+ -> bank.-, return: none, wire: 14 AWG 1 m")
    assert [fact.mark for fact in Survey(system(text)).poles] == ["short-circuit@bad:f0"]


def test_each_of_several_that_alone_brings_it_about_and_no_other():
    expect(lamps().line("bad", BAD).line("bad-2", BAD).text, "short-circuit@bad:f0 short-circuit@bad-2:f0")
    case = lamps().line("bad", BAD).load("lamp", line=plain("lamp", *BACK))
    expect(case.text, "short-circuit@bad:f0 missing-return@lamp:r0")


def test_where_none_of_several_brings_it_about_alone_each_is_named():
    """From bar to bar over two loads, the one's - and the other's +: three conductors in a row."""
    case = lamps().node("a", LOAD).node("b", LOAD).line("x", "feed: feed-bar/fuse 10 A -> a.-, return: none, wire: 14 AWG 1 m")
    case.line("y", "bond: a.- -> b.+, wire: 14 AWG 1 m").line("z", "return: return-bar -> b.+, wire: 14 AWG 1 m")
    assert sorted(fact.mark for fact in found(case)) == [f"short-circuit@{at}" for at in ("x:f0", "y:b0", "z:r0")]


def test_a_line_on_earth_is_a_short_circuit_and_a_neutral_is_none():
    case = lamps().node("pedestal", "shore, rating: 30 A").node("ac-panel", "ac panel, rating: 30 A")
    case.line("shore", "ac: pedestal -> breaker 2-pole 30 A -> ac-panel, wire: [10 AWG 0.2 m, 1 m]")
    assert found(case.line("tie", "bond: ac-panel.N -> ac-panel.earth, wire: 12 AWG 0.2 m")) == []
    fact, = found(case.line("tie", "bond: ac-panel.L -> ac-panel.earth, wire: 12 AWG 0.2 m"))
    assert (fact.mark, fact.ends) == ("short-circuit@tie:b0", ("pedestal.L", "pedestal.earth"))


def test_a_neutral_on_the_dc_return_joins_no_two_poles_of_one_source():
    case = lamps().node("ic", "inverter charger, power: 1 kW, charge: 40 A").node("o", "outlet, rating: 15 A")
    case.line("ic", "feed: feed-bar/fuse 150 A -> ic, return: return-bar -> ic, wire: 1/0 AWG 1 m")
    case.line("o", "ac: ic/breaker 15 A -> o, wire: 12 AWG 3 m")
    assert found(case.line("tie", "bond: ic.out.N -> return-bar, wire: 12 AWG 1 m")) == []


@pytest.mark.parametrize("case, expected", [
    (lamps().load("lamp", line=plain("lamp", *BACK)),
     {"missing-return@lamp:r0": (("lamp",), "bank", "-", ("feed-bar", "lamp"))}),
    (lamps().load("lamp", line=plain("lamp", "return-bar", "return-bar")),
     {"unfed-node@lamp:f0": (("lamp",), "bank", "+", ("return-bar", "lamp"))}),
    (panel(lamps(), "feed-bar", "feed-bar"),
     {"missing-return@pf:r0": (("p", "x0", "x1", "x2", "x3"), "bank", "-", ("feed-bar", "p"))}),
    (lamps().load("a", line=plain("a", *BACK)).load("b", line=plain("b", *BACK)),  # each only with its own
     {"missing-return@a:r0": (("a",), "bank", "-", ("feed-bar", "a")),
      "missing-return@b:r0": (("b",), "bank", "-", ("feed-bar", "b"))}),
], ids=["return", "feed", "panel", "two"])
def test_a_landing_on_the_other_side(case, expected):
    assert {fact.mark: (fact.wrong, fact.right, fact.pole, fact.path) for fact in found(case)} == expected


def swapped_bars(back: str = "r2") -> Case:
    case = lamps().node("r2", "bar, rating: 60 A").node("bar-2", "bar, rating: 60 A, pair: r2")
    return case.line("sub", f"feed: return-bar/fuse 30 A -> bar-2, return: feed-bar -> {back}, wire: 8 AWG 1 m")


@pytest.mark.parametrize("case, mark, wrong, other", [
    (lamps().load("lamp", line="feed: feed-bar/fuse 10 A -> lamp.-, return: return-bar -> lamp.+, wire: 14 AWG 3 m"),
     "lamp:f0", ("lamp",), "lamp:r0"),
    (second(lamps(), "-", "+"), "l2:f0", ("bank2",), "l2:r0"),
    (lamps().line("main", SWAPPED), "main:f0", ("bank",), "main:r0"),
    (panel(lamps(), "return-bar", "feed-bar"), "pf:f0", ("p",), "pf:r0"),  # the line's own node, not what hangs on it
    (lamps().load("lamp", line="feed: return-bar/fuse 10 A -> lamp, return: feed-bar/lamp, wire: {feed: 14 AWG 3 m}"),
     "lamp:f0", ("lamp",), ""),  # bolted to the wrong bar: no cable
    (swapped_bars(), "sub:f0", ("bar-2", "r2"), "sub:r0"),
    (swapped_bars().loads("a", "b", bar="bar-2"), "sub:f0", ("bar-2", "a", "b"), "sub:r0"),
    (lamps().node("p", "panel, rating: 60 A").load("lamp", line=(  # of the panel only the + is on the line
        "feed: return-bar/fuse 10 A -> p -> lamp, return: feed-bar -> lamp, "
        "wire: {feed: [14 AWG 1 m, 1 m], return: 14 AWG 1 m}")), "lamp:f0", ("lamp",), "lamp:r0"),
    (lamps().node("lamp", LOAD).line("f", "feed: return-bar/fuse 10 A -> lamp, return: none, wire: 14 AWG 3 m")
     .line("r", "return: feed-bar -> lamp, wire: 14 AWG 3 m"), "f:f0", ("lamp",), "r:r0"),  # by two lines of one pole each
    (lamps().node("a", LOAD).node("b", LOAD).line(
        "odd", "feed: return-bar/fuse 10 A -> a, return: feed-bar -> b, wire: 14 AWG 1 m"), "odd:f0", ("a", "b"), "odd:r0"),
    (swapped_bars("a").node("a", LOAD), "sub:f0", ("bar-2", "a"), "sub:r0"),  # a line to a bar and from a load
], ids=["load", "second bank", "only bank", "panel", "bolted", "bars", "bars with loads", "past a panel", "two lines",
        "a load each", "a bar and a load"])
def test_a_reversal(case, mark, wrong, other):
    fact, = found(case)
    assert (fact.mark, fact.wrong, fact.other) == (f"reversed-polarity@{mark}", wrong, other)


def test_on_a_tie_the_stronger_node_is_right():
    """One node to either side of each net, the bank's name the last of the alphabet."""
    text = netlist("a: load, voltage: 12 V, power: 20 W\n z: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah",
                   "l: feed: z/fuse 10 A -> a.-, return: z -> a.+, wire: 14 AWG 1 m")
    fact, = Survey(system(text)).poles
    assert (fact.rule, fact.wrong) == ("reversed-polarity", ("a",))


def test_of_as_many_landings_of_two_lines_and_two_nodes_none_is_a_reversal():
    """One lamp's return on the feed bar, another's feed on the return bar."""
    case = lamps().load("a", line=plain("a", *BACK)).load("b", line=plain("b", "return-bar", "return-bar"))
    assert sorted(fact.mark for fact in found(case)) == ["missing-return@a:r0", "unfed-node@b:f0"]


def test_loads_in_series_are_no_mistake_of_poles():
    case = lamps().node("a", "load, voltage: 6 V, power: 20 W").node("b", "load, voltage: 6 V, power: 20 W")
    case.line("s", "feed: feed-bar/fuse 10 A -> a, return: b -> return-bar, wire: 14 AWG 1 m")
    assert found(case.line("t", "bond: a.- -> b.+, wire: 14 AWG 1 m")) == []


@pytest.mark.parametrize("weak, strong", [(LOAD, BANK), (CHARGER, BANK), (LOAD, CHARGER)])
@pytest.mark.parametrize("order", [("a", "z"), ("z", "a")])
def test_the_stronger_node_is_right_whatever_its_name(order, weak, strong):
    low, high = order
    text = netlist(f"{low}: {weak}\n {high}: {strong}",
                   f"l: feed: {high}/fuse 10 A -> {low}.-, return: {high} -> {low}.+, wire: 14 AWG 1 m")
    fact, = (fact for fact in Survey(system(text)).poles if fact.rule == "reversed-polarity")
    assert fact.wrong == (low,)


@pytest.mark.parametrize("line, mark", [
    ("feed: feed-bar/fuse 10 A -> lamp, return: feed-bar/lamp, wire: {feed: 14 AWG 3 m}", "missing-return@lamp"),
    ("feed: return-bar/lamp, return: return-bar -> lamp, wire: {return: 14 AWG 3 m}", "unfed-node@lamp"),
])
def test_a_load_bolted_to_the_wrong_bar(line, mark):
    fact, = found(lamps().load("lamp", line=line))
    assert fact.mark == mark and fact.edge.startswith("joint")


@pytest.mark.parametrize("charger, right", [("", "dead"), ("out", "boost")])
@pytest.mark.parametrize("more", ["", ", regen: 5 A"])
def test_a_bar_is_stronger_than_loads_and_a_source_than_a_bar(charger, right, more):
    case = lamps().load("a", bar="dead").load("b", bar="dead").node("dead", "bar, rating: 100 A, pair: return-bar")
    case.node("a", LOAD + more)
    case.node("boost", CHARGER)
    if charger:
        case.line(charger, "feed: boost -> fuse 40 A/dead, return: boost -> return-bar, wire: 8 AWG 1 m")
    fact, = found(case.load("lamp", line=plain("lamp", "feed-bar/fuse 10 A", "dead")))
    assert (fact.mark, fact.right) == ("missing-return@lamp:r0", right)


def test_what_is_right_is_the_strongest_node_of_the_net():
    case = lamps().node("spare", LOAD).line("spare", plain("spare", "feed-bar/fuse 10 A", "return-bar"))
    case.nodes = dict(reversed(case.nodes.items()))  # the bank last
    fact, = found(case.load("lamp", line=plain("lamp", *BACK)))
    assert fact.right == "bank"
