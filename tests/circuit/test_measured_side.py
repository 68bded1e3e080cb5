"""What passes current on the return side, and what takes too little to count. Common practice."""

from __future__ import annotations

import pytest

from tests.circuit.cases import marks
from tests.circuit.measured import CHARGER, CHARGES, unmeasured
from tests.circuit.test_measured_cases import BANK2, BMS, FEED, house, load, wires


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


@pytest.mark.parametrize("text", [
    house("m: return: way.common -> meter -> return-bar, wire: [2/0 AWG 1 m, 1 m]\n", "way: selector, rating: 300 A\n",
          f"main: {FEED}, return: bank -> way.1, {wires(1)}\n"),
    house("pre: return: bank -> soak -> meter.battery, wire: [14 AWG 1 m, 1 m]\n",
          "soak: resistor, resistance: 50 ohm, power: 10 W\n"),
], ids=["selector", "resistor"])
def test_what_stands_between_a_bank_and_its_shunt_and_only_passes_current(text):
    assert marks(text) == []


@pytest.mark.parametrize("through", ["", "-> switch 50 A "])
def test_a_bond_passes_current_by_itself_and_through_a_switch(through):
    """From what is bonded there, but not from what has only the protective core of its cable there: that carries a
    current in a fault alone."""
    wire = "[4 AWG 1 m, 4 AWG 1 m]" if through else "4 AWG 1 m"
    text = house(f"""
bond: bond: bank.- {through}-> hull, wire: {wire}
earth: bond: pedestal.earth -> hull, wire: 8 AWG 1 m
galley: ac: pedestal -> breaker 2-pole 15 A -> kettle, wire: [12 AWG 0.2 m, 1 m]
""", "hull: chassis\npedestal: shore, rating: 30 A\nkettle: ac load, power: 1 kW\n")
    (cable, (things, *_)), = unmeasured(text).items()
    assert (cable, things) == ("bond:b0", ("hull", "pedestal"))
