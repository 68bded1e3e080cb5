"""Open voltages in the cold: 4 x 24.6 V x (1 - 0.28 % x (T - 25 °C)), or the factor of the NEC table."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, good

RULE = "pv-voltage-too-high"
DRIFT, COLDEST, LIMIT = "voc drift: -0.28 %/°C, ", "site: {coldest: -20 °C}\n", "max pv voltage: 100 V"


@pytest.mark.parametrize("limit, expected", [("110.7 V", 1), ("110.8 V", 0), ("111 V", 0)])
def test_by_the_modules_coefficient(limit, expected):
    assert 4 * 24.6 * (1 + 0.0028 * 45) == pytest.approx(110.7984)
    assert len(bad(RULE, (LIMIT, f"max pv voltage: {limit}"))) == expected


@pytest.mark.parametrize("coldest, factor", [(-20, 1.18), (-21, 1.20), (0, 1.10), (-1, 1.12), (-45, 1.25)])
def test_by_the_table_where_it_has_none(coldest, factor):
    volts = 4 * 24.6 * factor
    pairs = (DRIFT, ""), ("coldest: -20 °C", f"coldest: {coldest} °C")
    assert len(bad(RULE, *pairs, (LIMIT, f"max pv voltage: {volts - 0.1:.2f} V"))) == 1
    assert bad(RULE, *pairs, (LIMIT, f"max pv voltage: {volts + 0.1:.2f} V")) == ()


@pytest.mark.parametrize("limit, expected", [("98.3 V", 1), ("98.4 V", 0)])
def test_without_a_coldest_day_only_what_is_too_much_at_any(limit, expected):
    """4 x 24.6 V = 98.4 V at 25 °C."""
    assert len(bad(RULE, (COLDEST, ""), (LIMIT, f"max pv voltage: {limit}"))) == expected


def test_modules_wired_in_series_add_up():
    """Three of 27.7 V and two more, five in all, at -20 °C: 138 V."""
    nodes = ("  more: {kind: pv, series: 2, voc drift: -0.28 %/°C, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A}\n"
             "circuits:\n"
             "  - {series: roof -> more, wire: 10 AWG 1 m}")
    line = "{feed: more -> switch 2-pole 20 A -> sun.pv, return: roof -> sun.pv, wire: 10 AWG 4 m}"
    (one,) = good(RULE, ("circuits:", nodes), ("{feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}", line))
    assert "138 V" in one.message


BANDS = [(20, 15, 1.04), (15, 10, 1.06), (10, 5, 1.08), (5, 0, 1.10), (0, -5, 1.12), (-5, -10, 1.14), (-10, -15, 1.16),
         (-15, -20, 1.18), (-20, -25, 1.20), (-25, -30, 1.21), (-30, -35, 1.23), (-35, -40, 1.25)]
# warmest, not itself in the band, and coldest temperature [°C], factor: NEC Table 690.7(A), from memory


@pytest.mark.parametrize("warmest, coldest, factor", [(25, 20, 1.02), *BANDS])
def test_every_band_of_the_table(warmest, coldest, factor):
    for celsius in (warmest - 0.1, (warmest + coldest) / 2, coldest):
        pairs = (DRIFT, ""), ("coldest: -20 °C", f"coldest: {celsius} °C")
        for limit, expected in ((98.4 * factor - 0.01, 1), (98.4 * factor + 0.01, 0)):
            assert len(bad(RULE, *pairs, (LIMIT, f"max pv voltage: {limit:.3f} V"))) == expected


@pytest.mark.parametrize("voc, expected", [("25.5 V", 0), ("25.5000000255 V", 0), ("25.500000027 V", 1)])
def test_a_billionth_is_rounding(voc, expected):
    """Four of 25.5 V are 102 V."""
    pairs = (COLDEST, ""), ("voc: 24.6 V", f"voc: {voc}"), (LIMIT, "max pv voltage: 102 V")
    assert len(bad(RULE, *pairs)) == expected


TABLE = " by the NEC table, its own drift is not stated"


@pytest.mark.parametrize("pairs, ending", [
    ([], "reaches 111 V open at -20 °C"),
    ([(DRIFT, "")], f"reaches 116 V open at -20 °C{TABLE}"),
    ([(DRIFT, ""), (COLDEST, ""), (LIMIT, "max pv voltage: 90 V")], "reaches 98.4 V open at 25 °C, and more in the cold"),
])
def test_says_where_the_voltage_comes_from(pairs, ending):
    (one,) = bad(RULE, *pairs)
    assert one.message.endswith(ending)


def test_one_node_without_a_drift_is_enough_for_the_table():
    nodes = ("  more: {kind: pv, series: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A}\n"
             "circuits:\n"
             "  - {series: roof -> more, wire: 10 AWG 1 m}")
    line = "{feed: more -> switch 2-pole 20 A -> sun.pv, return: roof -> sun.pv, wire: 10 AWG 4 m}"
    (one,) = good(RULE, ("circuits:", nodes), ("{feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}", line))
    assert one.message.endswith(f"141 V open at -20 °C{TABLE}")
