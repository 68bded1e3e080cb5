"""Batteries by chemistry."""

import math

import pytest
from hypothesis import given, strategies as st

from diagrammer.electrics.battery import (
    cells, charge_limit, charge_time, cold_share, compensated, delivered, discharge_limit, run_time, usable, window,
)

CHEMISTRIES = ("lifepo4", "flooded", "agm", "gel", "lithium")


@pytest.mark.parametrize("chemistry, volts, count", [
    ("lifepo4", 12, 4), ("lifepo4", 12.8, 4), ("lifepo4", 24, 8), ("lifepo4", 25.6, 8), ("lifepo4", 48, 16),
    ("lifepo4", 51.2, 16), ("lifepo4", 36, 12), ("lifepo4", 3.2, 1), ("flooded", 12, 6), ("flooded", 6, 3),
    ("agm", 24, 12), ("gel", 48, 24), ("agm", 2, 1), ("flooded", 8, 4), ("lithium", 25.2, 7), ("lithium", 50.4, 14),
])
def test_cells_in_series(chemistry, volts, count):
    assert cells(chemistry, volts) == count


@pytest.mark.parametrize("chemistry, volts, nominal, least, cutoff, absorption, floating, most, equalise", [
    # packs of handbook cells (common practice)
    ("lifepo4", 12, 12.8, 10.0, 11.2, 14.2, 13.5, 14.6, None),
    ("lifepo4", 24, 25.6, 20.0, 22.4, 28.4, 27.0, 29.2, None),
    ("lifepo4", 48, 51.2, 40.0, 44.8, 56.8, 54.0, 58.4, None),
    ("flooded", 12, 12.0, 10.5, 11.4, 14.5, 13.3, 16.0, 15.6),
    ("flooded", 24, 24.0, 21.0, 22.8, 29.0, 26.6, 32.0, 31.2),
    ("flooded", 48, 48.0, 42.0, 45.6, 58.1, 53.3, 64.1, 62.4),
    ("agm", 12, 12.0, 10.5, 11.6, 14.5, 13.6, 14.7, None),
    ("agm", 24, 24.0, 21.0, 23.2, 28.9, 27.2, 29.4, None),
    ("agm", 48, 48.0, 42.0, 46.3, 57.8, 54.4, 58.8, None),
    ("gel", 12, 12.0, 10.5, 11.6, 14.2, 13.7, 14.4, None),
    ("gel", 24, 24.0, 21.0, 23.2, 28.3, 27.4, 28.8, None),
    ("gel", 48, 48.0, 42.0, 46.3, 56.6, 54.7, 57.6, None),
])
def test_windows(chemistry, volts, nominal, least, cutoff, absorption, floating, most, equalise):
    found = window(chemistry, volts)
    for value, printed in ((found.nominal, nominal), (found.least, least), (found.cutoff, cutoff),
                           (found.absorption, absorption), (found.float, floating), (found.most, most)):
        assert value == pytest.approx(printed, abs=0.051)
    assert found.equalise == (None if equalise is None else pytest.approx(equalise))


def test_stated_cells_go_before_the_nominal_voltage():
    assert window("lifepo4", 48, 15).most == pytest.approx(54.75)


def test_charging_voltage_falls_with_heat():
    """Lead: -3 mV/K for each cell (read)."""
    assert compensated(14.4, "agm", 6, 35) == pytest.approx(14.4 - 6 * 0.003 * 10)
    assert compensated(14.2, "lifepo4", 4, 35) == 14.2


@given(st.floats(1, 1.6), st.floats(20, 2000), st.floats(0.5, 400))
def test_run_time_and_charge_are_the_same_law(exponent, capacity, amps):
    assert run_time(capacity, amps, exponent) * amps == pytest.approx(delivered(capacity, amps, exponent))


def test_peukert_without_loss():
    assert run_time(100, 10, 1.0) == pytest.approx(10)
    assert run_time(100, 5, 1.3) == pytest.approx(20)


def test_usable():
    """Depth 0.5 for lead, 0.8 for lithium (common practice); Peukert only where it takes away."""
    assert usable("agm", 100) == 50 and usable("lifepo4", 280) == pytest.approx(224)
    assert usable("flooded", 100, 25, exponent=1.25) == pytest.approx(0.669 * 50, abs=0.05)
    assert usable("flooded", 100, 1) == 50
    assert usable("flooded", 100, 5, depth=0.8) == 80


@given(st.sampled_from(CHEMISTRIES), st.floats(-40, 60))
def test_cold_never_gives_more(chemistry, temperature):
    share = cold_share(chemistry, temperature)
    assert 0 <= share <= 1
    assert share <= cold_share(chemistry, temperature + 1)


def test_cold():
    """IEEE 485 (from memory): a lead bank must be 1.43 times larger at 30 °F."""
    assert cold_share("agm", -1.1) == pytest.approx(1 / 1.43)
    assert cold_share("agm", 25) == cold_share("lifepo4", 25) == cold_share("gel", 40) == 1
    assert cold_share("lifepo4", -25) == 0


def test_charge_time_of_a_lithium_battery_is_its_charge_over_the_current():
    assert charge_time("lifepo4", 200, 50, 0.2, 0.8) == pytest.approx(0.6 * 200 / 50 / 0.98)


def test_the_last_part_of_a_lead_battery_takes_its_time():
    """Ampere-hour law: from where the current meets the charge missing it decays exponentially."""
    bulk = (100 - 40) / 40
    tail = math.log(40 / 4)
    assert charge_time("flooded", 200, 40, 0.5, 0.98) == pytest.approx((bulk + tail) / 0.85)
    assert charge_time("flooded", 200, 400, 0.5, 0.98) == pytest.approx(math.log(100 / 4) / 0.85)


@given(st.sampled_from(CHEMISTRIES), st.floats(1, 200), st.floats(0, 0.9), st.floats(0.01, 0.09))
def test_more_current_never_charges_later(chemistry, amps, start, more):
    end = start + more
    assert charge_time(chemistry, 100, amps * 1.5, start, end) <= charge_time(chemistry, 100, amps, start, end) + 1e-9
    assert charge_time(chemistry, 100, amps, start, start) == 0


def test_limits_of_current():
    assert charge_limit("flooded", 200) == 40 and charge_limit("agm", 200) == 70  # C/5 and 0.35 C
    assert charge_limit("lifepo4", 280) == 280 and charge_limit("lifepo4", 280, most=False) == 140
    assert discharge_limit("lifepo4", 280) == 280


@pytest.mark.parametrize("call", [
    lambda: window("zinc", 12), lambda: cold_share("zinc", 0), lambda: usable("zinc", 100),
    lambda: charge_time("agm", 100, 0, 0.5, 0.9), lambda: charge_time("agm", 100, 10, 0.9, 0.5),
    lambda: charge_time("agm", 100, 10, 0.5, 1.0),
])
def test_refused(call):
    with pytest.raises(ValueError):
        call()
