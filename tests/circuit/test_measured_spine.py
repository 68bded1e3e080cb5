"""What hangs on the way from a bank to its shunt, and where that is cut. Common practice."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system
from tests.circuit.measured import FOUR, METER2, of, unmeasured
from tests.circuit.test_measured_cases import FEED, ON_SUB, SUB, house, lamp, load, wires


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


R2_MAIN = f"main: {FEED}, return: bank -> r2 -> meter -> return-bar, {wires(3)}\n"
R2 = "r2: bar, rating: 600 A\n"


def hanging(text: str) -> list[tuple]:
    """(conductors or the node where it is to be parted, things, landing) of each finding."""
    return [(fact.cables or fact.nodes[:1], fact.things, fact.landing) for fact in Survey(system(text)).measured]


def test_what_is_bolted_on_in_two_places_is_parted_in_both():
    text = house("b1: bond: hull/bank.-\nb2: bond: hull/r2\n", R2 + "hull: chassis\n", R2_MAIN)
    assert hanging(text) == [(("hull",), ("hull",), "bank"), (("hull",), ("hull",), "r2")]


def test_a_bar_bolted_on_is_parted_at_the_conductors_that_land_there():
    """A lamp by two returns: one to the bank, one to a bar that is bolted to a bar on the way."""
    lines = "bolt: return: r3/r2\n" + lamp("x", "r3") + lamp("x", "bank", "y")
    text = house(lines, R2 + "r3: bar, rating: 100 A\n" + load("x"), R2_MAIN)
    assert hanging(text) == [(("y:r0",), ("x",), "bank"), (("x:r0",), ("x",), "r3")]


def test_a_bar_on_the_way_on_which_a_spare_bar_hangs_too():
    """It is on the way all the same: the returns are to be moved, not the bank's own two leads."""
    lines = "".join(lamp(name, "r2") for name in FOUR) + "spare: return: r2 -> r3, wire: 8 AWG 1 m\n"
    nodes = R2 + "r3: bar, rating: 100 A\n" + "".join(map(load, FOUR))
    assert hanging(house(lines, nodes, R2_MAIN)) == [(("r2",), FOUR, "r2")]
