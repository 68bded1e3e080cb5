"""Claims of voltage: how far one reaches, which are comparable, which side is in the right."""

from __future__ import annotations

import math

import pytest

from diagrammer.circuit.stands import RETURN, Stand, conflicts, groups, stands
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system


def stand(volts: float, role: str = "load", measure: str = "dc", spread: float = 0.0, node: str = "") -> Stand:
    return Stand(node or f"{role} {volts:g}", "t", role, {measure: ((volts - spread, volts + spread),)}, (volts, volts))


def test_windows_that_touch_meet():
    assert stand(10, spread=2).meets(stand(14, spread=2)) and not stand(10, spread=2).meets(stand(14.1, spread=2))
    assert [stand(10, spread=2).takes("dc", volts) for volts in (7.9, 8, 12, 12.1)] == [False, True, True, False]


def test_ac_never_meets_dc_and_other_measures_are_not_compared():
    assert not stand(120, measure="line to neutral").meets(stand(120))
    assert stand(120, measure="line to neutral").meets(stand(240, measure="line to line"))
    assert not stand(120, measure="line to neutral").meets(stand(240, measure="line to neutral"))


def test_the_voltage_of_the_storage_is_right_however_many_loads_there_are():
    bank, lamps = stand(12, "storage"), [stand(24) for _ in range(3)]
    ((right, wrong),) = conflicts([*lamps, bank])
    assert (right, wrong) == ([bank], lamps)


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 1, 0), (1, 2, 0)])
def test_of_one_class_the_many_are_right(order):
    lamps = [stand(12), stand(24), stand(24)]
    ((right, wrong),) = conflicts([lamps[number] for number in order])
    assert [s.stated[0] for s in right] == [24, 24] and [s.stated[0] for s in wrong] == [12]


def test_of_as_many_the_first_in_the_file():
    ((right, wrong),) = conflicts([stand(24), stand(12)])
    assert right[0].stated[0] == 24 and wrong[0].stated[0] == 12


def test_groups_part_what_cannot_meet():
    found = groups([stand(12), stand(24), stand(12), stand(48)], "dc")
    assert [[s.stated[0] for s in group] for group in found] == [[12, 12], [24], [48]]


def test_ac_and_dc_on_one_net_the_weightier_right():
    bank, lamp, kettle = stand(12, "storage"), stand(12), stand(120, measure="line to neutral")
    assert next(conflicts([kettle, bank, lamp])) == ([bank, lamp], [kettle])


def test_a_load_that_suits_the_bank_is_right_beside_a_higher_charger():
    bank, charger, lamp = stand(12, "storage", spread=1.2), stand(14.4, "source", spread=1.5), stand(11, spread=0.5)
    assert list(conflicts([bank, charger, lamp])) == []


def with_windows(role: str, *windows: tuple[float, float], measure: str = "dc") -> Stand:
    return Stand(role, "t", role, {measure: windows}, windows[0])


def test_of_several_windows_one_is_enough():
    either, low = with_windows("load", (110, 130), (220, 260)), stand(120)
    assert [either.takes("dc", volts) for volts in (120, 180, 240)] == [True, False, True]
    assert either.meets(low) and low.meets(either) and either.meets(stand(240)) and not either.meets(stand(180))


def test_a_minus_is_of_direct_current_and_stands_with_another():
    back = Stand("lamp", "lamp.-", "load", RETURN, (12, 12))
    assert back.meets(back) and back.meets(stand(12)) and not back.meets(stand(120, measure="line to neutral"))
    assert [one.ac for one in (back, stand(12), stand(120, measure="line to neutral"))] == [False, False, True]


def test_what_suits_one_bank_of_two_is_wrong():
    low, high, lamp = stand(12, "storage", spread=1), stand(13.5, "storage", spread=1), stand(10.8, spread=0.4)
    assert list(conflicts([low, high, lamp])) == [([low, high], [lamp])]


def test_as_many_of_one_kind_as_of_two_the_first_in_the_file():
    """How many stand for a voltage counts, not how many different windows they have."""
    many, few = [stand(24, spread=1), stand(24, spread=1)], [stand(12, spread=1), stand(12.5, spread=1)]
    assert groups([*many, *few], "dc") == [many, few] and groups([*few, *many], "dc") == [few, many]
    assert [[s.stated[0] for s in group] for group in groups([stand(v) for v in (24, 12, 12, 24)], "dc")] == [[24, 24], [12, 12]]


def test_of_as_many_at_the_middle_and_at_an_end_the_middle():
    bank, low, middle = stand(12, "storage", spread=1.2), stand(10, spread=0.85), stand(12, spread=0.5)
    assert groups([bank, low, middle], "dc") == [[bank, middle], [low]]


def accepted(node: str, terminal: str) -> dict:
    """{measure: windows [V]} of a node `one`, rounded to 0.001 V."""
    text = netlist(f"one: {node}\na: bar, rating: 9 A\nb: bar, rating: 9 A", "ab: feed: a -> b, return: none, wire: 14 AWG 1 m")
    ((_, found),) = stands(Survey(system(text)).start)[terminal]
    assert (found.node, found.terminal) == ("one", terminal)
    return {measure: [tuple(round(volt, 3) for volt in window) for window in windows]
            for measure, windows in found.accepts.items()}


@pytest.mark.parametrize(("node", "low", "high"), [
    ("load, voltage: 12 V, power: 20 W", 12 / 1.1, 12 * 1.1),
    ("battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah", 12 / 1.1, 12 * 1.1),
    ("converter, voltage: 12 V, output: 20 A, input voltage: 24 V", 12 / 1.1, 12 * 1.1),
    ("dc charger, output: 10 A, voltage: 14.4 V", 14.4 / 1.2, 14.4 * 1.1),  # its charge voltage, of 12 V
    ("alternator, output: 50 A, voltage: 14.4 V", 14.4 / 1.2, 14.4 * 1.1),
    ("load, voltage: 10 .. 30 V, power: 20 W", 10 * 1.1, 30 / 1.1),
    ("load, voltage: 12 .. 13 V, power: 20 W", math.sqrt(12 * 13), math.sqrt(12 * 13)),  # too narrow to draw in
])
def test_what_a_direct_voltage_stands_for(node, low, high):
    """Within a factor of 1.1; what charges from 1.2 below; a stated window drawn in (practice of this program)."""
    assert accepted(node, "one.+") == {"dc": [(round(low, 3), round(high, 3))]}
    assert accepted(node, "one.-") == {"return": [(0, 0)]}


def around(volts: float) -> tuple[float, float]:
    return round(volts / math.sqrt(1.1), 3), round(volts * math.sqrt(1.1), 3)


@pytest.mark.parametrize(("phases", "terminal", "measures"), [
    ("1", "one.L", {"line to neutral": [around(120)]}),
    ("2", "one.L2", {"line to line": [around(120)]}),
    ("2+N", "one.L1", {"line to neutral": [around(120)], "line to line": [around(240)]}),
    ("3+N", "one.L3", {"line to neutral": [around(120)], "line to line": [around(120 * math.sqrt(3))]}),
])
def test_what_an_alternating_voltage_stands_for(phases, terminal, measures):
    """A factor of 1.1 in all from the lowest to the highest (practice of this program); 120/240 V and 208Y/120 V
    (ANSI C84.1, from memory)."""
    assert accepted(f"shore, rating: 30 A, voltage: 120 V, phases: {phases}", terminal) == measures


def test_what_stands_on_a_stack_stands_higher():
    battery = "battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah"
    text = netlist(f"b1: {battery}\nb2: {battery}", "link: series: b1 -> b2, wire: 2 AWG 0.3 m")
    ((_, top),) = stands(Survey(system(text)).start)["b2.+"]
    assert top.accepts["dc"] == (pytest.approx((24 / 1.1, 24 * 1.1)),) and top.height == 12 and top.stated == (12, 12)
