"""Overcurrent devices beside conductors: each expected number stands with its source."""

import pytest

from diagrammer.electrics.ampacity import ampacity
from diagrammer.electrics.protection import Distances, distances, is_made, largest_device, next_rating, ratings
from diagrammer.quantity import awg, mm2


def allowed(device, practice, size, volts=12.0):
    amps = ampacity(size, practice, circuit=device).amps
    return device <= largest_device(amps, practice, volts=volts, size=size)


@pytest.mark.parametrize("device, practice, size, verdict", [
    (35, "abyc", awg(14), True),
    (40, "abyc", awg(14), False),  # ABYC E-11 11.10: 35 A is made, so there is no next size
    (200, "abyc", awg(3), True),  # 180 A is not made, 200 A is the next
    (225, "abyc", awg(3), False),
    (50, "cfr", awg(14), True),  # 33 CFR 183.455(c)(1): 150 % of 35 A, whatever is made
    (53, "cfr", awg(14), False),
    (15, "nec", awg(14), True),  # NEC 240.4(D)(3)
    (20, "nec", awg(14), False),
    (20, "nec", awg(12), True),  # 240.4(D)(5)
    (25, "nec", awg(12), False),
    (30, "nec", awg(10), True),  # 240.4(D)(7), though 35 A at 75 °C
    (35, "nec", awg(10), False),
    (40, "nec", awg(8), True),  # 110.14(C): 40 A at 60 °C
    (45, "nec", awg(8), False),
    (100, "nec", awg(2), True),  # 240.4(B): 95 A at 60 °C, 100 A is the next
    (125, "nec", awg(2), True),  # 115 A at 75 °C, 125 A is the next
    (150, "nec", awg(2), False),
    (100, "nec", awg(3), False),  # 85 A at 60 °C, 90 A is the next
    (110, "nec", awg(3), False),  # 100 A at 75 °C, which is made
    (18, "iso", mm2(1.5), True),  # IEC 60364-4-43 433.1: In at most Iz
    (18.1, "iso", mm2(1.5), False),
])
def test_one_device(device, practice, size, verdict):
    assert allowed(device, practice, size) is verdict


@pytest.mark.parametrize("number, most", [(12, 15), (10, 25), (8, 35)])
def test_small_aluminium_conductors(number, most):
    """NEC 240.4(D)(4) and (6); 8 AWG 35 A at 60 °C."""
    amps = ampacity(awg(number), "nec", material="aluminium").amps
    assert largest_device(amps, "nec", volts=12, size=awg(number), material="aluminium") == most


def test_150_percent_caps_the_next_size():
    assert largest_device(0.6, "abyc", volts=12) == 0.6  # the next made, 1 A, would be 167 %


def test_cfr_from_50_volts_asks_for_the_next_made_size():
    """33 CFR 183.455(c)(2)."""
    assert largest_device(35, "cfr", volts=50) == 35
    assert largest_device(35, "cfr", volts=49.9) == 52.5


def test_nec_above_800_amperes_does_not_round_up():
    """NEC 240.4(C)."""
    assert largest_device(760, "nec", volts=48) == 800
    assert largest_device(801, "nec", volts=48) == 801


@pytest.mark.parametrize("practice, share", [("abyc", 1.5), ("cfr", 1.5), ("nec", 1.0), ("iso", 1.0)])
def test_several_devices_count_by_their_sum(practice, share):
    assert largest_device(120, practice, volts=12, several=True) == 120 * share


def test_small_conductors_of_the_other_system():
    """NEC 240.4(D) by area: 4 mm² lies between 12 and 10 AWG, 6 mm² between 10 and 8."""
    assert largest_device(30, "nec", volts=12, size=mm2(4)) == 20
    assert largest_device(40, "nec", volts=12, size=mm2(6)) == 30
    assert largest_device(50, "nec", volts=12, size=mm2(10)) == 50


def test_ratings_that_are_made():
    assert is_made(35) and is_made(63, "breaker") and is_made(7.5, "blade")
    assert not is_made(35, "strip") and not is_made(37) and not is_made(63, "blade")
    assert next_rating(180) == 200 and next_rating(35) == 35
    assert next_rating(31, "blade") == 35 and next_rating(6001) is None
    assert next_rating(101, "blade") is None
    assert list(ratings()) == sorted(set(ratings()))


def test_distances():
    """33 CFR 183.455(b), 183.460(a): 7, 40 and 72 in; ISO 10133 8.1; nec 0.45 m as common practice."""
    assert distances("abyc") == distances("cfr") == Distances(0.178, 1.016, 1.829)
    assert distances("iso") == Distances(0.2, 1.8, 1.8)
    assert distances("nec") == Distances(0.45, 0.45, 0.45)
    assert distances("abyc").sheathed == pytest.approx(40 * 0.0254)


@pytest.mark.parametrize("call", [
    lambda: distances("din"),
    lambda: largest_device(10, "din", volts=12),
    lambda: ratings("bottle"),
])
def test_unknown_words_raise(call):
    with pytest.raises(ValueError):
        call()
