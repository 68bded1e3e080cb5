"""Boundary cases of the measured side, each with exactly what must be found, nothing more.

That all of a bank's current passes its shunt is common practice, and what makes its state of
charge countable.
"""

from __future__ import annotations

import pytest

from tests.circuit.cases import marks, netlist

BASE = """
bank: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah
meter: shunt, rating: 500 A
feed-bar: bar, rating: 600 A, pair: return-bar
return-bar: bar, rating: 600 A
lamp-1: load, voltage: 12 V, power: 24 W
"""
FEED = "feed: bank/fuse 200 A -> feed-bar"
LAMP = "lamp-1: feed: feed-bar/fuse 10 A -> lamp-1, wire: 14 AWG 2 m\n"


def thick(count: int, metres: str = "0.3 m") -> str:
    return f"[{', '.join(['2/0 AWG ' + metres] * count)}]"


def wires(back: int) -> str:
    return f"wire: {{feed: 2/0 AWG 1 m, return: {thick(back)}}}"


MAIN = f"main: {FEED}, return: bank -> meter -> return-bar, {wires(2)}\n"


def house(circuits: str = "", nodes: str = "", main: str = MAIN, base: str = BASE) -> str:
    return netlist(base + nodes, main + LAMP + circuits)


def load(name: str) -> str:
    return f"{name}: load, voltage: 12 V, power: 24 W\n"


def lamp(name: str, back: str, circuit: str = "") -> str:
    """A lamp on the feed bar whose return lands on `back`."""
    return f"{circuit or name}: feed: feed-bar/fuse 10 A -> {name}, return: {name} -> {back}, wire: 14 AWG 2 m\n"


FOUR = [f"x{n}" for n in range(4)]
SUB = "sub-bar: bar, rating: 100 A\n" + "".join(map(load, FOUR))
ON_SUB = "".join(lamp(name, "sub-bar") for name in FOUR)
TWO = BASE.replace("meter: ", "meter2: shunt, rating: 500 A\nmeter: ")
SERIES = f"main: {FEED}, return: bank -> meter -> meter2 -> return-bar, {wires(3)}\n"

RETURNS = [
    (117, house(lamp("lamp", "bank"), load("lamp")), "unmeasured-return@lamp:r0"),
    (118, house(lamp("lamp", "bank") + lamp("lamp2", "bank"), load("lamp") + load("lamp2")),
     "unmeasured-return@lamp:r0 unmeasured-return@lamp2:r0"),
    (119, house(ON_SUB + "sub: return: sub-bar -> bank, wire: 8 AWG 1 m\n", SUB), "unmeasured-return@sub:r0"),
    (120, house(ON_SUB + "sub: return: sub-bar -> return-bar, wire: 8 AWG 1 m\n", SUB), ""),
    (121, house("".join(lamp(name, "r2") for name in FOUR), "r2: bar, rating: 600 A\n" + "".join(map(load, FOUR)),
                f"main: {FEED}, return: bank -> r2 -> meter -> return-bar, {wires(3)}\n"), "unmeasured-return@r2"),
    (122, house("bad: return: bank -> return-bar, wire: 2/0 AWG 1 m\n"), "unmeasured-return@bad:r0"),
    (123, house("bond: bond: bank.- -> hull, wire: 4 AWG 1 m\n", "hull: chassis\n"), "unmeasured-return@bond:b0"),
    (127, house(main=SERIES, base=TWO), ""),
    (128, house(lamp("c", "joint"), "joint: joint\n" + load("c"),
                f"main: {FEED}, return: bank -> meter -> joint -> meter2 -> return-bar, {wires(4)}\n", TWO), ""),
    (129, house(lamp("c", "bank"), load("c"), SERIES, TWO), "unmeasured-return@c:r0"),
    # 143: two feeds, each with its own return
    (143, house(lamp("lamp", "bank", "x") + lamp("lamp", "return-bar", "y"), load("lamp")), "unmeasured-return@x:r0"),
    (144, netlist(BASE, f"r: {FEED}, return: bank -> return-bar, wire: 2/0 AWG 1 m\n"
                        "m: return: bank -> meter.battery, wire: 2/0 AWG 0.3 m\n" + LAMP), "unmeasured-return@r:r0"),
]

ENGINE = """
start: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah
starter: starter, current: 200 A
engine: chassis
alt: alternator, output: 90 A
"""
CRANK = """
crank: feed: start -> starter, return: starter/engine, wire: 2/0 AWG 1 m
alt: feed: alt -> fuse 125 A/start, return: alt/engine, wire: 2 AWG 1 m
eng: return: engine -> return-bar, wire: 2/0 AWG 2 m
sret: return: start -> {post}, wire: 2/0 AWG 0.5 m
"""
BMS = "bms: bms, rating: 300 A\n"
BANK2 = "bank2: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah\n"


def two_banks(lead: str, back: str, nodes: str = BANK2, wire: str = wires(1)) -> str:
    """A second bank on the feed bar, by the feed and the return given."""
    return house(f"ret2: feed: {lead}, return: {back}, {wire}\n", nodes)


SHUNTS = [
    (124, house(CRANK.format(post="engine"), ENGINE), ""),
    # 125: the engine is bonded to the return bar as before, the starter battery's negative is not
    (125, house(CRANK.format(post="bank"), ENGINE), "unmeasured-return@sret:r0"),
    (126, house(nodes=BMS, main=f"main: {FEED}, return: bank -> bms -> switch battery 300 A -> meter -> return-bar, "
                                f"{wires(4)}\n"), ""),
    (130, two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> meter2 -> return-bar",
                    BANK2 + "meter2: shunt, rating: 500 A\n", wires(2)), ""),
    (131, two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> bank"), ""),
    (132, two_banks("bank2/fuse 200 A -> feed-bar", "bank2 -> return-bar"), "unmeasured-return@ret2:r0"),
    (133, two_banks("bank2/fuse 200 A -> tie-relay -> fuse 200 A/feed-bar", "bank2 -> return-bar",
                    BANK2 + "tie-relay: relay, rating: 300 A, coil: 12 V\n",
                    "wire: {feed: [2/0 AWG 1 m, 1 m], return: 2/0 AWG 1 m}"), "no-shunt@bank2"),
    (134, netlist(BASE.replace("meter: shunt, rating: 500 A\n", "") + load("lamp"),
                  f"main: {FEED}, return: bank -> return-bar, wire: 2/0 AWG 1 m\n" + LAMP + lamp("lamp", "bank")),
     "no-shunt@bank"),
    (135, house(main=f"main: {FEED}, return: bank -> meter.system -> return-bar, {wires(2)}\n"),
     "shunt-backwards@meter"),
    (136, house(lamp("lamp", "bank"), load("lamp"),
                f"main: {FEED}, return: bank -> meter.system -> return-bar, {wires(2)}\n"),
     "shunt-backwards@meter unmeasured-return@lamp:r0"),
    (137, house(main="main: feed: bank/fuse 200 A -> meter -> feed-bar, return: bank -> return-bar, "
                     "wire: {feed: [2/0 AWG 0.3 m, 0.3 m], return: 2/0 AWG 1 m}\n"), "shunt-in-feed@meter"),
    (138, house(main="main: feed: bank/fuse 200 A -> meter -> feed-bar, return: bank -> return-bar, "
                     "wire: {feed: [2/0 AWG 0.3 m, 0.3 m], return: 2/0 AWG 1 m}\n",
                base=BASE.replace("meter: shunt", "meter: shunt, side: feed")), ""),
    (139, house("array: feed: roof -> sun.pv, wire: 10 AWG 5 m\n"
                "sun: feed: sun -> breaker 40 A/feed-bar, return: sun -> sun-meter -> return-bar, "
                "wire: {feed: 8 AWG 1 m, return: [8 AWG 0.5 m, 0.5 m]}\n",
                "roof: pv, power: 180 W, voc: 22 V, isc: 9 A\n"
                "sun: solar charger, type: mppt, max pv voltage: 60 V, output: 35 A\n"
                "sun-meter: shunt, rating: 100 A, measures: sun\n"), ""),
]

STEP = "step: converter, voltage: 12 V, output: 30 A, input voltage: 12 V{common}\npanel: panel, rating: 60 A\n"
STEP_LINES = """
stepin: feed: feed-bar/fuse 50 A -> step.in, return: {back} -> step.in, wire: 8 AWG 1 m
step: feed: step -> panel, wire: 8 AWG 0.5 m
a: feed: panel/fuse 10 A -> a{a}, wire: 14 AWG 2 m
"""

CONVERTERS = [
    (140, house(STEP_LINES.format(back="return-bar", a=""), STEP.format(common=", common: none") + load("a")), ""),
    (141, house(STEP_LINES.format(back="return-bar", a=", return: a -> return-bar"),
                STEP.format(common=", common: none") + load("a")), "stray-return@a:r0"),
    # 142: the output's negative is on the return bar, so that a way past the shunt leads through the converter
    (142, house("stepin: feed: feed-bar/fuse 50 A -> step.in, return: bank -> step.in, wire: 8 AWG 1 m\n"
                "step: feed: step -> panel, return: step -> return-bar, wire: 8 AWG 0.5 m\n"
                "a: feed: panel/fuse 10 A -> a, wire: 14 AWG 2 m\n",
                STEP.format(common="").replace("rating: 60 A", "rating: 60 A, pair: return-bar") + load("a")),
     "unmeasured-return@stepin:r0"),
]


@pytest.mark.parametrize("number, text, expected", RETURNS + SHUNTS + CONVERTERS,
                         ids=lambda value: str(value) if isinstance(value, int) else "")
def test_case(number, text, expected):
    assert marks(text) == sorted(expected.split()), text


def test_all_cases_stand_here():
    assert sorted(number for number, *_ in RETURNS + SHUNTS + CONVERTERS) == list(range(117, 145))
