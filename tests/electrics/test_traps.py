"""Mistakes that programs of this kind make; each has its test. Those on tables alone stand in tests/tables."""

import pytest

from diagrammer.electrics import battery, drop, fault, solar
from diagrammer.electrics.ampacity import ampacity
from diagrammer.electrics.conductor import resistance
from diagrammer.electrics.device import breaking
from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Branch, Load, Network, Source
from diagrammer.electrics.protection import largest_device
from diagrammer.quantity import awg, mm2

FOOT = 0.3048


@pytest.mark.parametrize("number", [18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3])
def test_sae_gauge_is_not_awg(number):
    """SAE J1127/J1128 gauges are 3 to 11 % thinner; drops by ABYC E-11 rest on them."""
    ratio = drop.circular_mils(awg(number), "SAE") / drop.circular_mils(awg(number))
    assert 0.89 <= ratio <= 0.975


def test_lengths_count_there_and_back():
    """ABYC and ISO: the whole way; the same circuit by Ohm's law over both conductors."""
    one_way = 5.0
    both = 20 * (resistance(mm2(10), one_way) + resistance(mm2(10), one_way))
    assert drop.drop(mm2(10), 20, 2 * one_way, "iso", ac=True) == pytest.approx(both, rel=0.2)
    assert drop.drop(mm2(10), 20, one_way, "iso", ac=True) < 0.7 * both


def test_the_200_degree_numbers_are_not_those_of_105():
    """The print of ISO 13297 with the wrong caption would give 170 A."""
    assert ampacity(mm2(16), "iso", 105).amps == 130 and ampacity(mm2(16), "iso", 200).amps == 170


def test_editions():
    """NEC from 2011: 3 AWG 115 A, 1 AWG 145 A at 90 °C (before: 110 and 150). 33 CFR takes 150 % flat."""
    assert ampacity(awg(3), "nec", 90, terminations=90).amps == 115
    assert ampacity(awg(1), "nec", 90, terminations=90).amps == 145
    assert largest_device(60, "abyc", volts=12) == 60 and largest_device(60, "cfr", volts=12) == 90


def test_bundles_below_50_volts_are_an_option():
    assert ampacity(awg(8), "abyc", bundle=7).amps == 80
    assert ampacity(awg(8), "abyc", bundle=7, bundle_below_50=True).amps == 40


def test_breaking_capacity_belongs_to_a_voltage():
    assert breaking("cube", 150, 14).breaking == 5 * breaking("cube", 150, 58).breaking


def test_series_adds_volts_and_parallel_adds_current_and_charge():
    assert fault.bank(2400, series=4) == 2400 and fault.bank(2400, parallel=4) == 9600
    assert battery.window("lifepo4", 24).nominal == 2 * battery.window("lifepo4", 12).nominal

    def short(*sources):
        net = Network((), sources, (Load("x", "p", "m", "resistance", 1e-6),))
        return solve(net).amps["x"]

    one = Source("a", "p", "m", 12.8, 5e-3)
    assert short(one, Source("b", "p", "m", 12.8, 5e-3)) == pytest.approx(2 * short(one), rel=1e-3)
    assert short(Source("a", "p", "mid", 12.8, 5e-3), Source("b", "mid", "m", 12.8, 5e-3)) == pytest.approx(
        short(one), rel=1e-3
    )


def amps_at(volts, watts):
    net = Network((Branch("w", "b", "x", 1e-9),), (Source("s", "b", "0", volts, 1e-9),),
                  (Load("x", "x", "0", "power", watts),))
    return solve(net).amps["x"]


def test_constant_power_asks_most_of_an_empty_battery():
    assert amps_at(10.0, 100) > amps_at(12.8, 100) > amps_at(14.6, 100)


def test_an_inverter_s_current_is_that_at_the_lowest_voltage():
    """2000 W, 0.90, 10.5 V: 211.6 A; neither 2000 / 12 nor without the loss."""
    assert amps_at(10.5, 2000 / 0.9) == pytest.approx(211.6, abs=0.1)
    assert amps_at(12.0, 2000) == pytest.approx(166.7, abs=0.1)


def test_the_nec_cold_table_gives_way_to_the_module_s_coefficient():
    by_module = solar.coldest_voltage(45, 1, -20, share=-0.28)
    assert by_module == pytest.approx(45 * (1 + 0.0028 * 45)) and by_module < solar.coldest_voltage(45, 1, -20)


def test_iso_10133_is_optimistic():
    """0.0164 is below copper at 20 °C (0.01724); class 5 maxima of IEC 60228 are up to 22 % above the formula."""
    for square in (1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150):
        ratio = resistance(mm2(square), 1) / drop.drop(mm2(square), 1, 1, "iso")
        assert 1.15 <= ratio <= 1.22
    assert drop.drop(mm2(1), 1, 1, "iso") < resistance(mm2(1), 1, 20, "solid")
