"""Solar strings and controllers."""

import pytest

from diagrammer.electrics import solar
from diagrammer.electrics.ampacity import OutsideTable


@pytest.mark.parametrize("coldest, factor", [  # NEC Table 690.7(A), from memory
    (30, 1.0), (25, 1.0), (24, 1.02), (20, 1.02), (19.9, 1.04), (0, 1.10), (-0.1, 1.12), (-5, 1.12), (-25, 1.20),
    (-26, 1.21), (-40, 1.25),
])
def test_nec_table(coldest, factor):
    assert solar.cold_factor(coldest) == factor
    assert solar.coldest_voltage(40, 2, coldest) == pytest.approx(80 * factor)


def test_the_table_ends_at_minus_40():
    with pytest.raises(OutsideTable):
        solar.cold_factor(-41)


def test_the_module_s_coefficient_goes_before_the_table():
    """NEC 690.7(A)(1): 45 V, -0.28 %/°C, -10 °C: 49.41 V and not 45 x 1.14."""
    assert solar.coldest_voltage(45, 1, -10, share=-0.28) == pytest.approx(49.41)
    assert solar.coldest_voltage(45, 1, -10, share=-0.28) != pytest.approx(45 * 1.14)


def test_a_warm_place_never_lowers_the_open_circuit_voltage():
    assert solar.coldest_voltage(45, 2, 35, share=-0.28) == 90


def test_heat():
    """Cell 30 K above the air (common practice): 35.4 V, -0.16 V/K, 25 °C in the air is 30.6 V at 55 °C of the cell."""
    assert solar.hottest_voltage(35.4, 1, 25, drift=-0.16) == pytest.approx(30.6)
    assert solar.hottest_voltage(35.4, 2, 25, drift=-0.16, rise=0) == pytest.approx(70.8)


@pytest.mark.parametrize("share, drift", [(None, None), (-0.3, -0.1)])
def test_one_way_to_give_the_drift(share, drift):
    with pytest.raises(ValueError):
        solar.at_temperature(40, 0, share, drift)


def test_string_fuses():
    """Two strings never (NEC 690.9(A)); three unless the series-fuse rating covers what the other two drive."""
    assert not solar.needs_string_fuses(10, 1) and not solar.needs_string_fuses(10, 2)
    assert solar.needs_string_fuses(10, 3) and solar.needs_string_fuses(10, 3, 20)
    assert not solar.needs_string_fuses(10, 3, 25)


def test_currents_of_an_array():
    """NEC 690.8: 1.25 and 1.5625 times the short-circuit current."""
    assert solar.largest_current(8, 3) == 30 and solar.device_current(8, 3) == 37.5


ARRAY = solar.array(24.9, 20.7, 11.3, 10.6, series=2, parallel=2)


def test_array():
    assert (ARRAY.voc, ARRAY.vmp, ARRAY.isc, ARRAY.imp) == pytest.approx((49.8, 41.4, 22.6, 21.2))
    cold = solar.array(24.9, 20.7, 11.3, 10.6, 2, 2, cell=-15, irradiance=500, voc_share=-0.28, vmp_share=-0.35)
    assert cold.voc == pytest.approx(49.8 * 1.112) and cold.vmp == pytest.approx(41.4 * 1.14)
    assert cold.imp == pytest.approx(10.6)


def test_a_tracking_controller_turns_voltage_into_current():
    free = solar.mppt(ARRAY, 26.0, 100)
    assert free.amps * 26 == pytest.approx(ARRAY.power * 0.96) and free.clipped == 0
    held = solar.mppt(ARRAY, 26.0, 20)
    assert held.amps == 20 and held.amps + held.clipped == pytest.approx(free.amps)
    assert solar.mppt(ARRAY, 41.0, 100).amps == 0  # no headroom


def test_a_switching_controller_gives_the_array_s_current():
    given_amps = solar.pwm(ARRAY, 26.0, 100).amps
    assert ARRAY.imp < given_amps < ARRAY.isc
    assert given_amps < solar.mppt(ARRAY, 26.0, 100).amps
    assert solar.pwm(ARRAY, 50.0, 100).amps == 0
    assert solar.pwm(ARRAY, 26.0, 10).clipped == pytest.approx(given_amps - 10)


def test_the_curve_passes_its_three_points():
    assert solar.current_at(ARRAY, 0) == pytest.approx(ARRAY.isc)
    assert solar.current_at(ARRAY, ARRAY.vmp) == pytest.approx(ARRAY.imp, rel=1e-3)
    assert solar.current_at(ARRAY, ARRAY.voc * 0.9999) == pytest.approx(0, abs=0.01 * ARRAY.isc)
    assert solar.current_at(solar.array(40, 32, 0, 0), 20) == 0
