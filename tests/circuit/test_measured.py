"""What is said of a return that its shunt does not measure: where it lands, what hangs there, past which shunt.

Common practice, as in the boundary cases, whose systems these start from.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import marks, netlist, system
from tests.circuit.test_measured_cases import (
    BANK2, BASE, BMS, CONVERTERS, FEED, LAMP, ON_SUB, RETURNS, SHUNTS, SUB, TWO, house, lamp, load, two_banks, wires,
)

CASES = {number: text for number, text, _ in RETURNS + SHUNTS + CONVERTERS}
FOUR = ("x0", "x1", "x2", "x3")
BANK3 = BANK2 + BANK2.replace("bank2", "bank3")
METER2 = "meter2: shunt, rating: 500 A\n"


def unmeasured(text: str) -> dict[str, tuple]:
    """{mark after the rule: (things, landing, beyond, shunt, bank, parallel, bypass)}"""
    return {fact.mark.partition("@")[2]: (fact.things, fact.landing, fact.beyond, fact.shunt, fact.bank,
                                          fact.parallel, fact.bypass)
            for fact in Survey(system(text)).measured if fact.rule == "unmeasured-return"}


def of(things, landing: str, beyond: str, shunt: str = "meter", bank: str = "bank", parallel: bool = False,
       bypass: bool = False) -> tuple:
    return things, landing, beyond, shunt, bank, parallel, bypass


def beyond_shunt(lead: str, name: str = "bank2", **how) -> dict[str, tuple]:
    return {lead: of((name,), name, "return-bar", parallel=True, **how)}


@pytest.mark.parametrize("number, expected", [
    (117, {"lamp:r0": of(("lamp",), "bank", "lamp")}),
    (118, {"lamp:r0": of(("lamp",), "bank", "lamp"), "lamp2:r0": of(("lamp2",), "bank", "lamp2")}),
    (119, {"sub:r0": of(FOUR, "bank", "sub-bar")}),
    (121, {"r2": of(FOUR, "r2", "")}),
    (122, {"bad:r0": of(("lamp-1",), "bank", "return-bar", bypass=True)}),  # it joins both sides of the shunt
    (123, {"bond:b0": of(("hull",), "bank", "hull")}),
    (129, {"c:r0": of(("c",), "bank", "c")}),  # of two in series the one that faces the bank
    (143, {"x:r0": of(("lamp", "lamp-1"), "bank", "lamp")}),  # the lamp is the thing, not a way past
    (144, {"r:r0": of(("lamp-1",), "bank", "return-bar")}),  # the shunt leads nowhere: nothing goes past it
    (125, {"sret:r0": of(("start",), "bank", "start")}),
    (132, beyond_shunt("ret2:r0")),
    (142, {"stepin:r0": of(("step",), "bank", "step")}),
])
def test_what_is_said_of_the_boundary_cases(number, expected):
    assert unmeasured(CASES[number]) == expected


@pytest.mark.parametrize("text, nodes, path", [
    (CASES[117], (), ("bank", "lamp")), (CASES[119], (), ("bank", "sub-bar", "x0")),
    (CASES[121], ("r2", *FOUR), ("bank", "r2", "x0")), (CASES[132], (), ("bank", "bank2", "return-bar")),
    (house("x: feed: feed-bar/fuse 10 A -> x, return: x/bank, wire: {feed: 14 AWG 1 m}\n", load("x")),
     ("x",), ("bank", "x")),
], ids=["a lead", "a bar's lead", "on one bar", "a bank's lead", "bolted on"])
def test_where_it_is_flagged(text, nodes, path):
    fact, = Survey(system(text)).measured
    assert (fact.nodes, fact.path, fact.excuses) == (nodes, path, ("meter",))
    assert bool(fact.edge) == (nodes == ("x",))


def test_a_bar_by_two_leads_is_cut_at_both():
    leads = "s1: return: sub-bar -> bank, wire: 8 AWG 1 m\ns2: return: sub-bar -> bank, wire: 8 AWG 1 m\n"
    expected = of(FOUR, "bank", "sub-bar")
    assert unmeasured(house(ON_SUB + leads, SUB)) == {"s1:r0": expected, "s2:r0": expected}


def test_a_branch_of_several_leads_is_cut_where_it_is_lightest():
    """Two leads to the bar, one to the only lamp on it: the lamp's."""
    leads = "s1: return: sub-bar -> bank, wire: 8 AWG 1 m\ns2: return: sub-bar -> bank, wire: 8 AWG 1 m\n"
    text = house(lamp("x0", "sub-bar") + leads, "sub-bar: bar, rating: 100 A\n" + load("x0"))
    assert unmeasured(text) == {"x0:r0": of(("x0",), "sub-bar", "x0")}


def test_a_bar_that_is_bolted_to_the_bank_is_parted_there():
    assert unmeasured(house(ON_SUB + "s1: return: sub-bar/bank\n", SUB)) == {"x0": of(FOUR, "bank", "sub-bar")}


def test_a_bar_behind_one_that_the_banks_current_passes():
    main = f"main: {FEED}, return: bank -> r2 -> meter -> return-bar, {wires(3)}\n"
    text = house(ON_SUB + "sub: return: sub-bar -> r2, wire: 8 AWG 1 m\n", SUB + "r2: bar, rating: 600 A\n", main)
    assert unmeasured(text) == {"sub:r0": of(FOUR, "r2", "sub-bar")}


def test_a_way_past_one_of_two_shunts_of_a_bank():
    lines = "m2: return: bank -> meter2 -> r2, wire: [2/0 AWG 1 m, 1 m]\nbad: return: bank -> r2, wire: 2/0 AWG 1 m\n"
    text = house(lines + lamp("a", "r2"), METER2 + "r2: bar, rating: 600 A\n" + load("a"))
    assert unmeasured(text) == {"bad:r0": of(("a",), "bank", "r2", bypass=True)}


def test_what_lands_on_a_stud_before_the_shunt_is_named_with_it():
    main = f"main: {FEED}, return: bank -> stud -> meter -> return-bar, {wires(3)}\n"
    text = house(lamp("a", "stud") + lamp("b", "stud"), "stud: joint\n" + load("a") + load("b"), main)
    assert unmeasured(text) == {"stud": of(("a", "b"), "stud", "")}


def test_each_bank_has_its_own_shunt():
    text = house(f"ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank2 -> meter2 -> return-bar, {wires(2)}\n"
                 + lamp("lamp", "bank2"), BANK2 + METER2 + load("lamp"))
    assert unmeasured(text) == {"lamp:r0": of(("lamp",), "bank2", "lamp", "meter2", "bank2")}


RET2 = "ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank2 -> return-bar, wire: 2/0 AWG 1 m\n"
ENGINE = """
start: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah
starter: starter, current: 200 A
engine: chassis
"""
BACKWARDS = f"main: {FEED}, return: bank -> {{}} -> return-bar, "


@pytest.mark.parametrize("text, nodes", [
    (CASES[135], ("meter", "bank")),
    (house(main=BACKWARDS.format("meter.system -> meter2") + wires(3) + "\n", base=TWO), ("meter", "bank")),
    (house(main=BACKWARDS.format("meter -> meter2.system") + wires(3) + "\n", base=TWO), ("meter2", "bank")),
    (house("bad: return: bank -> return-bar, wire: 2/0 AWG 1 m\n",  # with a way past it
           main=BACKWARDS.format("meter.system") + wires(2) + "\n"), ("meter", "bank")),
    (house("bad: return: bank -> return-bar, wire: 2/0 AWG 1 m\n", BMS,  # nearer by that way than by its own
           BACKWARDS.format("bms -> meter.system") + wires(3) + "\n"), ("meter", "bank")),
    (two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> meter2.system -> return-bar", BANK2 + METER2, wires(2)),
     ("meter2", "bank2")),
    (house("ret2: feed: bank2/fuse 200 A -> feed-bar, return: bank -> bank2, wire: 2/0 AWG 1 m\n", BANK2,
           BACKWARDS.format("meter.system") + wires(2) + "\n"), ("meter", "bank")),  # the nearest of two
], ids=["alone", "first of two", "second of two", "bypassed", "bypassed by a short way", "of the second bank", "of two banks"])
def test_a_shunt_the_wrong_way_round(text, nodes):
    assert [fact.nodes for fact in Survey(system(text)).measured if fact.rule == "shunt-backwards"] == [nodes]


def test_two_shunts_in_series_with_more_between_them_than_beyond():
    main = f"main: {FEED}, return: bank -> meter -> r2 -> meter2 -> return-bar, {wires(4)}\n"
    nodes = "r2: bar, rating: 600 A\n" + "".join(map(load, FOUR))
    assert marks(house("".join(lamp(name, "r2") for name in FOUR), nodes, main, TWO)) == []


def test_many_banks_on_one_end_and_an_engine_with_little_on_the_other():
    """The house's shunt faces five banks; a sixth has its own."""
    nodes = "".join(BANK2.replace("bank2", f"bank{number}") for number in range(2, 7)) + METER2
    lines = "".join(RET2.replace("ret2", f"ret{number}").replace("bank2", f"bank{number}").replace("-> return-bar", back)
                    for number, back in ((2, "-> bank"), (3, "-> bank"), (4, "-> bank"), (5, "-> bank")))
    lines += f"ret6: feed: bank6/fuse 200 A -> feed-bar, return: bank6 -> meter2 -> return-bar, {wires(2)}\n"
    crank = "start: feed: start -> starter, return: start -> return-bar, wire: 2/0 AWG 1 m\n" \
            "starter: return: starter/engine\nengine: return: engine -> return-bar, wire: 2/0 AWG 2 m\n"
    assert Survey(system(house(lines + crank, nodes + ENGINE))).measured == ()


def test_a_shunt_that_measures_the_bank_by_name_and_one_that_measures_a_load():
    named = BASE.replace("500 A\n", "500 A, measures: {}\n", 1)
    text = house(lamp("lamp", "bank"), load("lamp"), base=named.format("bank"))
    assert unmeasured(text) == {"lamp:r0": of(("lamp",), "bank", "lamp")}
    assert marks(house(base=named.format("lamp-1"))) == ["no-shunt@bank"]


APART = """
    r2: bar, rating: 600 A
    bar-2: bar, rating: 600 A, pair: r2
"""
CHARGER = "pedestal: shore, rating: 30 A\ncharger: ac charger, voltage: 12 V, output: 20 A\n"
CHARGES = """
shore: ac: pedestal -> breaker 2-pole 15 A -> charger.in, wire: [12 AWG 0.2 m, 1 m]
out: feed: charger -> fuse 30 A/feed-bar, return: charger -> {}, wire: 8 AWG 1 m
"""
GROUND = "ground: return: iso.ground -> bank, wire: 16 AWG 1 m\n"
COIL = """
pump: feed: feed-bar/fuse 10 A -> K1 -> pump, wire: {feed: [14 AWG 1 m, 1 m], return: 14 AWG 1 m}
coil: feed: feed-bar/fuse 1 A -> K1.coil, return: bank -> K1.coil, wire: 18 AWG 1 m
"""


@pytest.mark.parametrize("text, expected", [
    (house(CHARGES.format("bank"), CHARGER), "unmeasured-return@out:r0"),
    (house(CHARGES.format("return-bar") + "sense: return: charger.sense -> bank, wire: 16 AWG 1 m\n", CHARGER), ""),
    (house("two: feed: bank2/fuse 200 A -> iso -> fuse 200 A/feed-bar, return: bank2 -> bank, "
           "wire: {feed: [2/0 AWG 1 m, 1 m], return: 2/0 AWG 1 m}\n" + GROUND,
           BANK2 + "iso: isolator, rating: 300 A\n"), ""),
    (house("supply: return: bms.supply -> bank, wire: 16 AWG 1 m\n", BMS,
           f"main: {FEED}, return: bank -> bms -> meter -> return-bar, {wires(3)}\n"), ""),
    (house(COIL, "K1: relay, rating: 30 A, coil: 12 V\n" + load("pump")), "unmeasured-return@coil:r0"),
], ids=["output", "sense lead", "isolator's ground", "supply of a bms", "coil"])
def test_leads_that_take_too_little_to_count(text, expected):
    assert " ".join(marks(text)) == expected


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
STACKS = "".join(f"b{number}: {BATTERY}" for number in range(1, 5)) + BASE.partition("\n")[2].partition("\n")[2].replace(
    "voltage: 12 V, power", "voltage: 24 V, power")
LINKS = "l1: series: b1/fuse 200 A -> b2, wire: 2/0 AWG 0.3 m\nl2: series: b3/fuse 200 A -> b4, wire: 2/0 AWG 0.3 m\n"


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
    assert unmeasured(crank("meter2", lead, load("lamp"))) == {"lamp:r0": of(("lamp",), "start", "lamp", "meter2", "start")}
    assert unmeasured(crank("meter2", RET2, BANK2)) == beyond_shunt("ret2:r0")
    backwards = Survey(system(crank("meter2.system"))).measured
    assert [(fact.rule, fact.nodes) for fact in backwards] == [("shunt-backwards", ("meter2", "start"))]


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
