"""Banks that no shunt faces: parallel to one that is measured, or not measured at all. Common practice."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import marks, netlist, system
from tests.circuit.measured import APART, BANK3, CHARGER, CHARGES, FOUR, METER2, RET2, beyond_shunt, of, unmeasured
from tests.circuit.test_measured_cases import BANK2, BASE, FEED, LAMP, house, lamp, load, two_banks, wires


def test_each_bank_has_its_own_shunt():
    text = house(f"ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank2 -> meter2 -> return-bar, {wires(2)}\n"
                 + lamp("lamp", "bank2"), BANK2 + METER2 + load("lamp"))
    assert unmeasured(text) == {"lamp:r0": of(("lamp",), "bank2", "lamp", "meter2", "bank2")}


@pytest.mark.parametrize("tie, expected", [
    ("switch, type: battery, rating: 300 A", "unmeasured-return@ret2:r0"),
    ("relay, rating: 300 A, coil: 12 V", "no-shunt@bank2"), ("isolator, rating: 300 A", "no-shunt@bank2"),
    ("contactor, rating: 300 A, coil: 12 V", "no-shunt@bank2"), ("diode, rating: 300 A", "no-shunt@bank2"),
])
def test_banks_are_parallel_unless_something_that_opens_by_itself_is_between(tie, expected):
    wire = "wire: {feed: [2/0 AWG 1 m, 1 m], return: 2/0 AWG 1 m}"
    text = two_banks("bank2/fuse 200 A -> tie -> fuse 200 A/feed-bar", "bank2 -> return-bar",
                     BANK2 + f"tie: {tie}\n", wire)
    assert marks(text) == [expected]


def test_of_several_parallel_banks_each_lead_past_the_shunt():
    second = "ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank2 -> {}, wire: 2/0 AWG 1 m\n"
    third = "ret3: feed: bank3/fuse 200 A -> feed-bar, return: bank3 -> return-bar, wire: 2/0 AWG 1 m\n"
    assert unmeasured(house(second.format("bank") + third, BANK3)) == beyond_shunt("ret3:r0", "bank3")
    assert unmeasured(house(second.format("return-bar") + third, BANK3)) == {
        **beyond_shunt("ret2:r0"), **beyond_shunt("ret3:r0", "bank3")}


def test_a_parallel_bank_in_a_system_with_ac():
    assert unmeasured(house(RET2 + CHARGES.format("return-bar"), BANK2 + CHARGER)) == beyond_shunt("ret2:r0")


def test_a_parallel_bank_by_two_leads_is_one_finding():
    again = "again: return: bank2 -> return-bar, wire: 2/0 AWG 1 m\n" \
            "twice: return: meter.system -> return-bar, wire: 2/0 AWG 0.3 m\n"
    assert unmeasured(house(RET2 + again, BANK2)) == beyond_shunt("ret2:r0")


def test_a_parallel_bank_of_another_system_goes_past_the_shunt_there():
    text = house(f"""
two: feed: bank2/fuse 200 A -> bar-2, return: bank2 -> meter2 -> r2, {wires(2)}
three: feed: bank3/fuse 200 A -> bar-2, return: bank3 -> r2, wire: 2/0 AWG 1 m
x: feed: bar-2/fuse 10 A -> x, wire: 14 AWG 2 m
""", BANK3 + METER2 + load("x") + APART)
    assert unmeasured(text) == {"three:r0": of(("bank3",), "bank3", "r2", "meter2", "bank2", True)}


BATTERY = "battery, chemistry: agm, voltage: 12 V, capacity: 200 Ah\n"
STACKS = "".join(f"b{number}: {BATTERY}" for number in range(1, 5)) + "".join(
    BASE.splitlines(keepends=True)[2:]).replace("voltage: 12 V, power", "voltage: 24 V, power")
LINKS = "".join(f"l{n}: series: b{n}/fuse 200 A -> b{n + 1}, wire: 2/0 AWG 0.3 m\n" for n in (1, 3))


def stacks(back: str) -> str:
    """Two stacks of two on one feed bar; the foot of the second returns to `back`."""
    return netlist(STACKS, LINKS + LAMP + f"""
        main: feed: b2/fuse 200 A -> feed-bar, return: b1 -> meter -> return-bar, {wires(2)}
        m2: feed: b4/fuse 200 A -> feed-bar, return: b3 -> {back}, wire: 2/0 AWG 1 m
    """)


def test_a_stack_parallel_to_another():
    assert marks(stacks("b1")) == []
    assert unmeasured(stacks("return-bar")) == beyond_shunt("m2:r0", "b3", bank="b1")


def test_a_shunt_in_the_feed_measures_the_stack_on_it_and_no_other():
    text = netlist(STACKS.replace("meter: shunt", "meter: shunt, side: feed") + APART + load("x").replace("12", "24"),
                   LINKS + LAMP + """
        main: feed: b2/fuse 200 A -> meter -> feed-bar, return: b1 -> return-bar, \
wire: {feed: [2/0 AWG 1 m, 1 m], return: 2/0 AWG 1 m}
        m2: feed: b4/fuse 200 A -> bar-2, return: b3 -> r2, wire: 2/0 AWG 1 m
        x: feed: bar-2/fuse 10 A -> x, wire: 14 AWG 2 m
    """)
    assert marks(text) == ["no-shunt@b3"]


@pytest.mark.parametrize("sense", ["", "sense: feed: bank2/fuse 1 A -> meter.sense, return: none, wire: 16 AWG 1 m\n"])
def test_two_banks_on_one_return_of_which_a_shunt_in_the_feed_measures_one(sense):
    """It measures what its large terminals stand on, not what its sense lead lands on."""
    nodes = BASE.replace("meter: shunt", "meter: shunt, side: feed") + BANK2 + load("x")
    text = netlist(nodes + "bar-2: bar, rating: 600 A, pair: return-bar\n", LAMP + sense + """
        main: feed: bank/fuse 200 A -> meter -> feed-bar, return: bank -> return-bar, \
wire: {feed: [2/0 AWG 1 m, 1 m], return: 2/0 AWG 1 m}
        two: feed: bank2/fuse 200 A -> bar-2, return: bank2 -> return-bar, wire: 2/0 AWG 1 m
        x: feed: bar-2/fuse 10 A -> x, wire: 14 AWG 2 m
    """)
    assert [(fact.rule, fact.nodes) for fact in Survey(system(text)).measured] == [("no-shunt", ("bank2",))]


def unshunted(circuits: str, nodes: str) -> list[tuple[str, ...]]:
    base = BASE.replace("meter: shunt, rating: 500 A\n", "")
    text = netlist(base + nodes, f"main: {FEED}, return: bank -> return-bar, wire: 2/0 AWG 1 m\n{LAMP}{circuits}")
    return [fact.nodes for fact in Survey(system(text)).measured if fact.rule == "no-shunt"]


def test_banks_on_one_return_without_a_shunt_are_one_finding():
    line = "two: feed: bank2/fuse 200 A -> {}, return: bank2 -> {}, wire: 2/0 AWG 1 m\n"
    assert unshunted(line.format("feed-bar", "return-bar"), BANK2) == [("bank", "bank2")]
    own = line.format("bar-2", "r2") + "x: feed: bar-2/fuse 10 A -> x, wire: 14 AWG 2 m\n"
    assert unshunted(own, BANK2 + APART + load("x")) == [("bank",), ("bank2",)]


@pytest.mark.parametrize("measures, expected", [
    ("", []), (", measures: bank", []), (", measures: lamp-1", ["no-shunt@bank"]),
])
def test_a_shunt_on_a_line_at_fault_is_the_banks_all_the_same(measures, expected):
    nodes = BASE.replace("500 A\n", f"500 A{measures}\n", 1).replace("return-bar", "rb") + "".join(map(load, FOUR))
    lines = f"main: {FEED}, return: bank -> rb, wire: 2/0 AWG 1 m\n"
    lines += "shunt: return: rb -> meter -> feed-bar, wire: [2/0 AWG 0.3 m, 0.3 m]\n"
    text = netlist(nodes, lines + LAMP + "".join(lamp(name, "rb") for name in FOUR))
    assert marks(text) == [*expected, "short-circuit@shunt:r0"]


@pytest.mark.parametrize("text, expected", [
    (house(main=f"main: feed: bank.-/fuse 200 A -> feed-bar, return: bank.+ -> meter -> return-bar, {wires(2)}\n"),
     "reversed-polarity@main:f0"),
    (two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> meter2 -> return-bar",
               BANK2.replace("12 V", "24 V") + METER2, wires(2)), "wrong-domain@ret2:f0"),
    (two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> return-bar", BANK2.replace("12 V", "24 V")),
     "wrong-domain@ret2:f0"),
    (house("f2: feed: bank2/fuse 200 A -> feed-bar, return: none, wire: 2/0 AWG 1 m\n"
           "r2: return: bank2 -> return-bar, wire: 2/0 AWG 1 m\n", BANK2.replace("12 V", "24 V")),
     "wrong-domain@f2:f0"),
], ids=["poles", "voltage, a shunt", "voltage, no shunt", "voltage, a return of its own"])
def test_a_bank_whose_line_is_at_fault_is_not_asked_for_its_shunt(text, expected):
    assert " ".join(marks(text)) == expected


SUN = """
roof: pv, power: 180 W, voc: 22 V, isc: 9 A
sun: solar charger, type: mppt, max pv voltage: 60 V, output: 35 A
sun-meter: shunt, rating: 100 A, side: feed{measures}
"""
SUN_LINES = """
array: feed: roof -> sun.pv, wire: 10 AWG 5 m
sun: feed: sun -> sun-meter -> breaker 40 A/feed-bar, return: sun -> return-bar, \
wire: {feed: [8 AWG 1 m, 1 m], return: 8 AWG 1 m}
"""


def test_a_shunt_in_the_feed_that_measures_a_charger_does_not_measure_the_bank():
    assert unshunted(SUN_LINES, SUN.format(measures=", measures: sun")) == [("bank",)]
    assert unshunted(SUN_LINES, SUN.format(measures=", measures: bank")) == []


def test_a_bms_in_the_feed_is_no_shunt():
    base = BASE.replace("meter: shunt, rating: 500 A", "bms: bms, rating: 300 A")
    text = netlist(base, LAMP + "main: feed: bank/fuse 200 A -> bms -> feed-bar, return: bank -> return-bar, "
                                "wire: {feed: [2/0 AWG 1 m, 1 m], return: 2/0 AWG 1 m}\n")
    assert [fact.mark for fact in Survey(system(text)).measured] == ["no-shunt@bank"]


def test_a_shunt_on_the_tap_of_a_stack_does_not_measure_the_stack():
    nodes = STACKS.replace("meter: shunt", "meter: shunt, side: feed") + load("tap")
    text = netlist(nodes, LAMP + f"""
        l1: series: b1/fuse 200 A -> b2, wire: 2/0 AWG 0.3 m
        main: feed: b2/fuse 200 A -> feed-bar, return: b1 -> return-bar, {wires(1)}
        tap: feed: b1.+/fuse 10 A -> meter -> tap, return: tap -> return-bar, \
wire: {{feed: [14 AWG 1 m, 1 m], return: 14 AWG 1 m}}
    """)
    assert [fact.mark for fact in Survey(system(text)).measured] == ["no-shunt@b1"]
