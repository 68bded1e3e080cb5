"""Which conductors of a line are told of: each cause once, and none lost.

Ampacities of 33 CFR 183.425 Table 5, 105 °C: 16 AWG 25 A, 14 AWG 35 A, 12 AWG 45 A, 10 AWG 60 A, 2/0 AWG 330 A.
"""

from __future__ import annotations

import pytest

from tests.circuit.cases import marks
from tests.circuit.test_protection_cases import PUMP, house, solar, tied

SUB = "sub: bar, rating: 600 A, pair: return-bar\n"
HEATER = "heater: load, voltage: 12 V, current: 48 A\n"
INVERTER = """
inv: inverter charger, power: 500 W, charge: 10 A
kettle: ac load, power: 100 W
"""
BACK = "return: 10 AWG 2 m"

def sun(way: str) -> str:
    return solar(f"sun -> {way} -> fuse 200 A/feed-bar", "{feed: [10 AWG 1 m, 2/0 AWG 1 m], return: 10 AWG 2 m}")


LINES = {
    "a device too large at each end of a line over a switch": (
        tied("bank/fuse 400 A -> switch battery 400 A -> fuse 400 A/bank2", "[2/0 AWG 1.5 m, 1.5 m]"),
        "protection-too-large@tie:f1"),  # which tells of the one behind it, too
    "a device too large at each end of one conductor": (
        tied("bank/fuse 400 A -> fuse 400 A/bank2"), "protection-too-large@tie:f0"),
    "too far away and too large for what is behind it as well": (
        house("bank -> fuse 400 A -> feed-bar", "[2/0 AWG 0.5 m, 0.5 m]"), "missing-protection@main:f0"),
    "three conductors, and three devices too large": (
        tied("bank/fuse 400 A -> switch battery 400 A -> fuse 400 A -> stud", "[2/0 AWG 1 m, 1 m, 1 m]").replace(
            "return: bank -> bank2", "return: none").replace(", return: 2/0 AWG 3 m", "").replace("circuits:", (
                "  stud: {kind: joint, pair: return-bar}\ncircuits:\n"
                "  - {name: other, feed: bank2/fuse 500 A -> stud, return: bank -> bank2, "
                "wire: 2 parallel 4/0 AWG 1 m}")),
        "protection-too-large@tie:f1 protection-too-large@tie:f2"),
    "of two devices one is too large": (
        tied("bank/fuse 400 A -> switch battery 400 A -> fuse 200 A/bank2", "[2/0 AWG 1.5 m, 1.5 m]"),
        "protection-too-large@tie:f0"),
    "a charger at one end and the device at the other": (
        solar("sun -> switch 60 A -> breaker 50 A/feed-bar", "[12 AWG 0.5 m, 0.5 m]", output=50),
        "missing-protection@sun:f0 protection-too-large@sun:f1"),
    "a charger at one end and no device": (
        solar("sun -> switch 60 A -> feed-bar", "[12 AWG 0.5 m, 0.5 m]", output=60),
        "missing-protection@sun:f0 protection-too-large@sun:f1"),
    "one device before a stud, and a battery beyond": (
        tied("sub -> stud -> bank2", "[2/0 AWG 1 m, 1 m]").replace("return: 2/0", "return: 4/0").replace(
            "circuits:", "  stud: {kind: joint, pair: return-bar}\n  sub: {kind: bar, rating: 600 A}\ncircuits:\n"
                         "  - {feed: bank/fuse 400 A -> stud, return: none, wire: 4/0 AWG 1 m}"),
        "missing-protection@tie:f1 protection-too-large@tie:f0"),
    "a device at each end of the line, both too large": (house(nodes=SUB + SUB.replace("sub", "sub2"), circuits=f"""
        one: feed: feed-bar/fuse 60 A -> sub, wire: 8 AWG 1 m
        two: feed: feed-bar/fuse 50 A -> sub2, wire: 8 AWG 1 m
        tie: feed: sub -> switch 60 A -> sub2, wire: {{feed: [14 AWG 1 m, 14 AWG 1 m], {BACK}}}
        """), "protection-too-large@tie:f0 protection-too-large@tie:f1"),
    "the first conductor and the thinner one behind it have one device": (house(nodes=HEATER, circuits=f"""
        heater: feed: feed-bar/fuse 90 A -> switch 60 A -> heater, wire: {{feed: [10 AWG 1 m, 16 AWG 1 m], {BACK}}}
        """), "protection-too-large@heater:f0"),
    "two devices feed a line together, which thins": (house(nodes=HEATER + SUB, circuits=f"""
        one: feed: feed-bar/fuse 60 A -> sub, wire: 10 AWG 1 m
        two: feed: feed-bar/fuse 60 A -> sub, wire: 10 AWG 1 m
        heater: feed: sub -> switch 60 A -> heater, wire: {{feed: [10 AWG 1 m, 16 AWG 1 m], {BACK}}}
        """), "protection-too-large@heater:f0"),
    # 53 A of loads behind a feeder that gets a device of at most 60 A: for 16 AWG any such device is too large
    "a branch behind a feeder whose device is too large": (house(nodes=PUMP + HEATER + SUB, circuits="""
        feeder: feed: feed-bar/fuse 90 A -> sub, wire: 10 AWG 1 m
        heater: feed: sub/fuse 60 A -> heater, wire: 10 AWG 1 m
        pump: feed: sub -> pump, wire: 16 AWG 1 m
        """), "protection-too-large@feeder:f0 protection-too-large@pump:f0"),
    # 200 A of the bar's fuse would be too much for 10 AWG
    "a diode lets nothing of the bank back": (sun("diode 120 A"), ""),
    "a switch does": (sun("switch 120 A"), "protection-too-large@sun:f0"),
    # a sense lead
    "a sense lead written from the meter": (
        house(circuits="sense: feed: meter.sense -> bank, wire: 18 AWG 1 m\n"), "unfused-sense-lead@sense:f0"),
    "a fuse in the return of a sense lead protects no feed": (house(nodes=INVERTER, circuits="""
        inv: feed: feed-bar/fuse 60 A -> inv, wire: 8 AWG 1 m
        kettle: ac: inv -> kettle, wire: 14 AWG 1 m
        sense: feed: bank -> inv.sense, return: inv.sense -> fuse 1 A -> return-bar, wire: 18 AWG
        """), "unfused-sense-lead@sense:f0"),
}


@pytest.mark.parametrize("name", LINES)
def test_line(name):
    text, expected = LINES[name]
    assert marks(text) == sorted(expected.split()), text
