"""Voltage drop as each practice computes it."""

import pytest
from hypothesis import given, strategies as st

from diagrammer.electrics.drop import area_for, circular_mils, drop, limit, thinnest
from diagrammer.electrics.conductor import KCMIL, area
from diagrammer.quantity import awg, mm2

FOOT = 0.3048


def test_abyc_divides_by_the_sae_area():
    """ABYC E-11: E = 10.75 I L / CM; 10 A, 21 ft, 10 AWG (9343 cmil)."""
    assert drop(awg(10), 10, 21 * FOOT, "abyc") == pytest.approx(10.75 * 10 * 21 / 9343)
    assert drop(awg(10), 10, 21 * FOOT, "cfr") == drop(awg(10), 10, 21 * FOOT, "abyc")


def test_abyc_takes_the_true_area_where_sae_has_no_gauge():
    assert circular_mils(awg(3), "SAE") == pytest.approx(52635, abs=1)
    assert circular_mils(mm2(35), "SAE") == pytest.approx(35 / KCMIL * 1000)


def test_nec_by_true_circular_mils():
    """12.9 ohm cmil/ft: 20 A, 100 ft in all, 12 AWG (6530 cmil)."""
    assert drop(awg(12), 20, 100 * FOOT, "nec") == pytest.approx(12.9 * 20 * 100 / 6530, rel=1e-4)


def test_iso_dc_and_ac():
    """ISO 10133 Annex A 0.0164; IEC 60364-5-52 Annex G 0.0225 ohm mm²/m."""
    assert drop(mm2(16), 50, 4, "iso") == pytest.approx(0.0164 * 50 * 4 / 16)
    assert drop(mm2(2.5), 10, 40, "iso", ac=True) == pytest.approx(0.0225 * 10 * 40 / 2.5)


def test_aluminium():
    """NEC practice 21.2 ohm cmil/ft; IEC 60364-5-52 Annex G 0.036 ohm mm²/m."""
    mils = area(awg(4)) / KCMIL * 1000
    assert drop(awg(4), 20, 30.48, "nec", material="aluminium") == pytest.approx(21.2 * 20 * 100 / mils)
    assert drop(mm2(16), 20, 30, "iso", ac=True, material="aluminium") == pytest.approx(0.036 * 20 * 30 / 16)
    assert drop(mm2(16), 20, 30, "iso", material="tinned") == drop(mm2(16), 20, 30, "iso")


def test_parallel_conductors_share():
    assert drop(awg(0), 200, 4, "abyc", parallel=2) == pytest.approx(drop(awg(0), 100, 4, "abyc"))


@pytest.mark.parametrize("practice, critical, ac, share", [
    ("abyc", True, False, 0.03), ("abyc", False, False, 0.10), ("abyc", False, True, 0.10), ("iso", True, False, 0.03),
    ("iso", False, False, 0.10), ("iso", True, True, 0.06), ("iso", False, True, 0.08), ("nec", True, False, 0.03),
    ("nec", False, True, 0.05), ("cfr", True, False, 0.03),
])
def test_limits(practice, critical, ac, share):
    assert limit(practice, critical, ac=ac) == share


def test_thinnest():
    sizes = tuple(mm2(s) for s in (1.5, 2.5, 4, 6, 10))
    assert thinnest(10, 10, 0.36, "iso", sizes) == mm2(6)
    assert thinnest(100, 10, 0.36, "iso", sizes) is None


@given(st.sampled_from(["abyc", "nec", "iso"]), st.floats(0.1, 400), st.floats(0.1, 50), st.floats(0.1, 5))
def test_the_area_asked_for_loses_just_that(practice, amps, length, volts):
    square = area_for(amps, length, volts, practice)
    assert drop(mm2(square), amps, length, practice) == pytest.approx(volts, rel=1e-9)
    assert area(mm2(square)) == square


@pytest.mark.parametrize("call", [lambda: drop(awg(10), 1, 1, "din"), lambda: limit("din")])
def test_unknown_practice(call):
    with pytest.raises(ValueError):
        call()
