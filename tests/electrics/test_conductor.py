"""Resistance of conductors."""

import pytest

from diagrammer.electrics.conductor import area, heating, resistance
from diagrammer.quantity import Size, awg, mm2


@pytest.mark.parametrize("square, strands, ohms", [  # IEC 60228 at 20 °C, ohm/km
    (2.5, "class 5", 7.98), (2.5, "class 5 tinned", 8.21), (2.5, "class 2", 7.41), (35, "class 5", 0.554),
    (120, "class 5", 0.161), (240, "class 2", 0.0754),
])
def test_metric(square, strands, ohms):
    assert resistance(mm2(square), 1000, strands=strands) == pytest.approx(ohms)


@pytest.mark.parametrize("number, ohms", [(14, 3.14), (2, 0.194), (-3, 0.0608)])  # NEC Chapter 9 Table 8, ohm/kft
def test_awg_at_75_degrees(number, ohms):
    assert resistance(awg(number), 304.8, 75) == pytest.approx(ohms)


@pytest.mark.parametrize("temperature, ratio", [(50, 1.1179), (75, 1.21615), (70, 1.1965), (90, 1.2751)])
def test_temperature(temperature, ratio):
    """Copper of 100 % IACS, 0.00393 per kelvin at 20 °C; (234.5 + T) / 254.5 is the same."""
    assert resistance(mm2(10), 1, temperature) / resistance(mm2(10), 1) == pytest.approx(ratio, abs=1e-4)
    assert heating(temperature) == pytest.approx((234.5 + temperature) / 254.5, abs=1e-4)


def test_nec_note_on_temperature():
    """NEC Chapter 9 Table 8 note: R2 = R1 (1 + 0.00323 (T - 75))."""
    assert heating(50, 75) == pytest.approx(1 + 0.00323 * (50 - 75), abs=1e-4)


def test_a_size_between_takes_the_resistivity_of_the_next_smaller():
    assert resistance(mm2(3), 1) == pytest.approx(7.98e-3 * 2.5 / 3)
    assert resistance(awg(5), 304.8, 75) == pytest.approx(0.491 * area(awg(6)) / area(awg(5)))
    assert resistance(mm2(0.25), 1) == pytest.approx(39e-3 * 2)
    assert resistance(Size("kcmil", 250), 304.8, 75) == pytest.approx(0.0515)


def test_solid_copper_is_one_over_58():
    assert resistance(mm2(1), 58, strands="solid") == pytest.approx(1.0)


def test_flexible_conductors_have_10_to_16_percent_more_than_solid_copper_of_the_nominal_area():
    for square in (0.5, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150):
        assert 1.10 <= resistance(mm2(square), 1) / resistance(mm2(square), 1, strands="solid") <= 1.165


@pytest.mark.parametrize("size, ohms", [(mm2(50), 0.641), (mm2(16), 1.91), (mm2(10), 3.08)])
def test_aluminium_of_iec_60228(size, ohms):
    assert resistance(size, 1000, material="aluminium") == pytest.approx(ohms)


def test_aluminium_heats_by_its_own_coefficient():
    """NEC Chapter 9 Table 8 note 2: 0.00330 at 75 °C, which is 0.00403 at 20 °C; the table's cell at 75 °C itself."""
    assert resistance(awg(2), 304.8, 75, material="aluminium") == pytest.approx(0.319)
    warm, hot = (resistance(awg(2), 1, degrees, material="aluminium") for degrees in (75, 90))
    assert hot / warm == pytest.approx(1 + 0.00330 * 15, abs=1e-4)


def test_tinned_copper_is_that_of_its_own_columns():
    """IEC 60228 class 5 tinned; NEC Chapter 9 Table 8 coated."""
    assert resistance(mm2(10), 1000, material="tinned") == pytest.approx(1.95)
    assert resistance(awg(10), 304.8, 75, material="tinned") == pytest.approx(1.29)


def test_unknown_strands():
    with pytest.raises(ValueError):
        resistance(mm2(1), 1, strands="class 9")
