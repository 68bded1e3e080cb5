"""Which shunts measure a bank, and which of their ends faces it. Common practice."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import marks, system
from tests.circuit.measured import APART, CASES, ENGINE, FOUR, METER2, RET2, beyond_shunt, of, unmeasured
from tests.circuit.test_measured_cases import BANK2, BASE, BMS, FEED, TWO, house, lamp, load, thick, two_banks, wires


STUDS = "bad: return: stud -> return-bar, wire: 2/0 AWG 1 m\n" + lamp("x", "stud")
STUD_NODES = "stud: joint\nj1: joint\nj2: joint\n" + load("x")
STUDDED = f"main: {FEED}, return: bank -> stud -> meter -> j1 -> j2 -> return-bar, {wires(5)}\n"
FAR = "bad: return: stud -> return-bar, wire: 2/0 AWG 1 m\nj: return: j2 -> j1 -> stud, wire: 6 AWG 1 m\n"
BACKWARDS = f"main: {FEED}, return: bank -> {{}} -> return-bar, "


@pytest.mark.parametrize("text, nodes", [
    (CASES[135], ("meter", "bank")),
    (house(main=BACKWARDS.format("meter.system -> meter2") + wires(3) + "\n", base=TWO), ("meter", "bank")),
    (house(main=BACKWARDS.format("meter -> meter2.system") + wires(3) + "\n", base=TWO), ("meter2", "bank")),
    (house("bad: return: bank -> return-bar, wire: 2/0 AWG 1 m\n",  # with a way past it
           main=BACKWARDS.format("meter.system") + wires(2) + "\n"), ("meter", "bank")),
    (house("bad: return: bank -> return-bar, wire: 2/0 AWG 1 m\n", BMS,  # nearer by that way than by its own
           BACKWARDS.format("bms -> meter.system") + wires(3) + "\n"), ("meter", "bank")),
    (house(FAR + lamp("x", "j2"), STUD_NODES,  # and a lamp far away on the side of the bank
           BACKWARDS.format("stud -> meter.system") + wires(3) + "\n"), ("meter", "bank")),
    (two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> meter2.system -> return-bar", BANK2 + METER2, wires(2)),
     ("meter2", "bank2")),
    (house("ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank -> bank2, wire: 2/0 AWG 1 m\n", BANK2,
           BACKWARDS.format("meter.system") + wires(2) + "\n"), ("meter", "bank")),  # the nearest of two
], ids=["alone", "first of two", "second of two", "bypassed", "bypassed by a short way", "a lamp far away",
        "of the second bank", "of two banks"])
def test_a_shunt_the_wrong_way_round(text, nodes):
    assert [fact.nodes for fact in Survey(system(text)).measured if fact.rule == "shunt-backwards"] == [nodes]


LAMPS = "".join(lamp(name, "r2") for name in FOUR)
R2 = "r2: bar, rating: 600 A\n" + "".join(map(load, FOUR))
SECOND = f"m2: return: bank -> meter2 -> r2, wire: {thick(2)}\n"


@pytest.mark.parametrize("text", [
    # the loads behind the bank's second shunt stand on the bank's side of the first, and are more than beyond it
    house(SECOND + LAMPS + RET2, R2 + BANK2 + METER2),
    # the bank's side has one thing but many that only pass current, the other side the reverse
    house(RET2 + lamp("x", "return-bar"), BMS + "stud: joint\n" + BANK2 + load("x"),
          f"main: {FEED}, return: bank -> bms -> switch battery 300 A -> stud -> meter -> return-bar, {wires(5)}\n"),
    # both ends on one bar: neither is nearer to the bank
    house(f"m: return: return-bar -> meter -> return-bar, wire: {thick(2)}\n",
          main=f"main: {FEED}, return: bank -> return-bar, {wires(1)}\n"),
    # with a way past it, and a lamp no further from its end than the bank
    house(STUDS, STUD_NODES, STUDDED),
    # the same, and beyond it a second bank as near to that end as the first
    house("bad: return: bank -> return-bar, wire: 2/0 AWG 1 m\n" + lamp("x", "bank") + RET2, BANK2 + load("x")),
    # with a way past it, and a bank apart from both of its ends
    house(f"""
bad: return: bank -> return-bar, wire: 2/0 AWG 1 m
two: feed: bank2/fuse 200 A -> bar-2, return: bank2 -> r2, {wires(1)}
x: feed: bar-2/fuse 10 A -> x, wire: 14 AWG 2 m
""", BANK2 + APART + load("x")),
], ids=["two of a bank", "many that pass", "on one bar", "a lamp as near", "and a second bank", "a bank apart"])
def test_a_shunt_the_right_way_round(text):
    assert not [fact for fact in Survey(system(text)).measured if fact.rule == "shunt-backwards"]


def test_two_shunts_in_series_with_more_between_them_than_beyond():
    main = f"main: {FEED}, return: bank -> meter -> r2 -> meter2 -> return-bar, {wires(4)}\n"
    nodes = "r2: bar, rating: 600 A\n" + "".join(map(load, FOUR))
    assert marks(house("".join(lamp(name, "r2") for name in FOUR), nodes, main, TWO)) == []


def test_many_banks_on_one_end_and_an_engine_with_little_on_the_other():
    """The house's shunt faces five banks; a sixth has its own."""
    nodes = "".join(BANK2.replace("bank2", f"bank{number}") for number in range(2, 7)) + METER2
    back = RET2.replace("-> return-bar", "-> bank")
    lines = "".join(back.replace("ret2", f"ret{number}").replace("bank2", f"bank{number}") for number in range(2, 6))
    lines += f"ret6: feed: bank6/fuse 200 A -> feed-bar, return: bank6 -> meter2 -> return-bar, {wires(2)}\n"
    crank = "start: feed: start -> starter, return: start -> return-bar, wire: 2/0 AWG 1 m\n" \
            "starter: return: starter/engine\nengine: return: engine -> return-bar, wire: 2/0 AWG 2 m\n"
    assert Survey(system(house(lines + crank, nodes + ENGINE))).measured == ()


def test_a_shunt_that_measures_the_bank_by_name_and_one_that_measures_a_load():
    named = BASE.replace("500 A\n", "500 A, measures: {}\n", 1)
    text = house(lamp("lamp", "bank"), load("lamp"), base=named.format("bank"))
    assert unmeasured(text) == {"lamp:r0": of(("lamp",), "bank", "lamp")}
    assert marks(house(base=named.format("lamp-1"))) == ["no-shunt@bank"]


def crank(back: str, more: str = "", nodes: str = "") -> str:
    """An engine with a shunt of its own battery, on the return bar of a house."""
    lines = f"""
start: feed: start -> starter, return: start -> {back} -> engine, {wires(2)}
starter: return: starter/engine
engine: return: engine -> return-bar, wire: 2/0 AWG 2 m
"""
    return house(lines + more, ENGINE + METER2 + nodes)


def test_a_shunt_that_is_not_wired_is_not_the_wrong_way_round():
    assert marks(house(nodes=METER2)) == ["unused-node@meter2"]


def test_a_shunt_that_measures_the_battery_of_an_engine():
    assert marks(crank("meter2")) == []
    lead = "lamp: feed: feed-bar/fuse 10 A -> lamp, return: start -> lamp, wire: 14 AWG 2 m\n"
    assert unmeasured(crank("meter2", lead, load("lamp"))) == {
        "lamp:r0": of(("lamp",), "start", "lamp", "meter2", "start")}
    assert unmeasured(crank("meter2", RET2, BANK2)) == beyond_shunt("ret2:r0")
    backwards = Survey(system(crank("meter2.system"))).measured
    assert [(fact.rule, fact.nodes) for fact in backwards] == [("shunt-backwards", ("meter2", "start"))]
