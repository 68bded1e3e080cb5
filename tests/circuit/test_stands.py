"""Claims of voltage: how far one reaches, which are comparable, which side is in the right."""

from __future__ import annotations

import pytest

from diagrammer.circuit.stands import Stand, conflicts, groups


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
