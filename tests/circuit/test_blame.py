"""Which conductor is named where two sides meet: the lightest cut, the one nobody misses, the nearest to the wrong side."""

from __future__ import annotations

from diagrammer.circuit.blame import Bench, Conflict, merged, once
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact, View
from diagrammer.circuit.wiring import way_back
from tests.circuit.cases import netlist, system

BANK = "bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, pair: back"
NODES = f"""
back: bar, rating: 400 A
x: bar, rating: 400 A, pair: back
y: bar, rating: 400 A, pair: back
one: {BANK}
two: {BANK}
lamp-x: load, voltage: 12 V, power: 20 W
lamp-y: load, voltage: 12 V, power: 20 W
"""
ONE, TWO = "one: feed: one/fuse class-t 100 A -> x, wire: 2 AWG 1 m", "two: feed: two/fuse class-t 100 A -> y, wire: 2 AWG 1 m"
LAMPS = ("lamp-x: feed: x/fuse 5 A -> lamp-x, wire: 14 AWG 1 m", "lamp-y: feed: y/fuse 5 A -> lamp-y, wire: 14 AWG 1 m")
TIE = "tie: feed: x -> y, return: none, wire: 2 AWG 1 m"
TIE_2 = "tie-2: feed: x -> y, return: none, wire: 2 AWG 1 m"
BOTH = (ONE, TWO, *LAMPS)


def view(*lines: str, more: str = "") -> View:
    return Survey(system(netlist(NODES + more, "\n".join(lines)))).start


def banks(of: View, wrong=("two.+",), right=("one.+",), **how) -> Conflict:
    return Conflict(tuple(of.whole), wrong, right, **how)


def cut(of: View, conflict: Conflict | None = None, **how) -> tuple[str, ...]:
    return Bench(of).cut(conflict or banks(of), **how).keys


def test_the_conductor_that_nobody_misses():
    """Between two banks with loads of their own the tie, though each bank's lead parts them as well."""
    assert cut(view(TIE, *BOTH)) == ("tie:f0",) and cut(view(*BOTH, TIE)) == ("tie:f0",)


def test_of_two_the_one_that_fewer_miss_though_it_is_farther():
    """Without the tie two lamps are dark; without the first bank the third still feeds them."""
    of = view(ONE, "three: feed: three/fuse class-t 100 A -> x, wire: 2 AWG 1 m", TIE, LAMPS[1],
              "lamp-x: feed: y/fuse 5 A -> lamp-x, wire: 14 AWG 1 m", more=f"three: {BANK}")
    assert cut(of, banks(of, ("lamp-x.+", "lamp-y.+"))) == ("one:f0",)


def test_who_is_not_asked_misses_nothing():
    """Then the lead of the second bank is missed no more than the tie, and nearer."""
    assert cut(view(TIE, *BOTH), besides=("two",)) == ("two:f0",)


def test_the_only_conductor_and_no_other():
    of = view(ONE, TIE, TIE_2, "lamp-y: feed: y/fuse 5 A -> lamp-y, wire: 14 AWG 1 m")
    assert cut(of, banks(of, ("y",), ("x",))) == ("tie:f0", "tie-2:f0")
    assert cut(of, banks(of, ("y",), ("one.+",))) == ("one:f0",)


def test_a_bolted_joint_rather_than_two_conductors_but_not_than_one():
    bolted, ends = "lamp-y: feed: y/lamp-y, return: none", (("lamp-y.+",), ("x",))
    (key,) = cut(of := view(ONE, TIE, TIE_2, bolted), banks(of, *ends))
    assert Bench(of).where(key) == {"nodes": ("lamp-y", "y"), "edge": key} and key.startswith("joint")
    assert cut(of := view(ONE, TIE, bolted), banks(of, *ends)) == ("tie:f0",)


def test_what_is_out_or_open_or_does_not_join_conducts_nothing():
    of = view(*BOTH, TIE, "by: feed: x -> switch Q-by 100 A -> y, return: none, wire: [2 AWG 1 m, 1 m]",
              "bond: bond: x -> y, wire: 2 AWG 1 m")
    opened = frozenset(key for key, data in of.edges.items() if data["form"] == "contact" and data["value"].node == "Q-by")
    assert len(opened) == 1
    bars = banks(of, ("y",), ("x",))
    assert set(cut(of, bars)) in ({"tie:f0", "by:f0", "bond:b0"}, {"tie:f0", "by:f1", "bond:b0"})
    assert cut(of, bars, gone=("by", "bond")) == ("tie:f0",)
    assert cut(of, bars, gone=("by", "bond", "tie")) == ()
    assert cut(of, banks(of, ("y",), ("x",), open=opened), gone=("bond",)) == ("tie:f0",)
    assert cut(of, banks(of, ("y",), ("x",), joins=way_back), gone=("by",)) == ("tie:f0",)


def test_only_ways_among_its_terminals_count():
    of = view(*BOTH, TIE, "by: feed: x -> z -> y, return: none, wire: [2 AWG 1 m, 1 m]", more="z: bar, rating: 400 A")
    within = Conflict(tuple(t for t in of.whole if t != "z"), ("y",), ("x",))
    assert cut(of, within) == ("tie:f0",) and len(cut(of, banks(of, ("y",), ("x",)))) == 2


def test_what_is_said_of_a_conductor_and_the_way_over_it():
    of = view(TIE, *BOTH)
    bench = Bench(of)
    found = bench.cut(banks(of))
    assert bench.where("tie:f0") == {"cables": ("tie:f0",), "nodes": ("y", "x")}
    assert bench.path(found, "tie:f0") == ("one", "F1", "x", "y", "F2", "two")
    assert bench.path(found, "tie:f0", ("lamp-x.+",)) == ("lamp-x", "F3", "x", "y", "F2", "two")
    assert bench.path(bench.cut(banks(of, ("one.+",), ("two.+",))), "tie:f0") == ("two", "F2", "y", "x", "F1", "one")


def test_what_blames_the_same_is_said_once():
    facts = [Fact("a", ("l:f0",)), Fact("a", ("l:f0",), ("n",)), Fact("b", ("l:f0",)), Fact("a", nodes=("n",))]
    assert list(once(facts)) == [facts[0], *facts[2:]]


def test_conflicts_of_one_wrong_side_are_one_the_largest_first():
    few = Conflict(("a", "b"), ("a",), ("b",), frozenset("x"), about="few")
    many = Conflict(("a", "c", "d"), ("a",), ("c",), frozenset("xy"), about="many")
    other = Conflict(("e", "f", "g", "h"), ("e",), ("f",), frozenset("z"))
    lone = Conflict(("p", "q"), ("p", "q"), ("r",))
    same = Conflict(("q", "p"), ("q", "p"), ("r",))
    assert merged([lone, few, other, many, same]) == [
        Conflict(("a", "b", "c", "d"), ("a",), ("b", "c"), frozenset("x"), about="many"), other, lone]
