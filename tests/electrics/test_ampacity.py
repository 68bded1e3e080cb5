"""Ampacity with its factors; each number with its clause."""

import pytest
from hypothesis import given, strategies as st

from diagrammer.electrics.ampacity import OutsideTable, ampacity
from diagrammer.electrics.conductor import area
from diagrammer.quantity import Size, awg, mm2

PRACTICES = ("abyc", "cfr", "nec", "iso")


@pytest.mark.parametrize("size, practice, amps", [
    (awg(14), "abyc", 35), (awg(-3), "abyc", 445), (awg(10), "cfr", 60),  # 33 CFR 183.425 Table 5, 105 °C
    (awg(14), "nec", 15), (awg(2), "nec", 95), (Size("kcmil", 250), "nec", 255),  # NEC Table 310.16, 60 and 75 °C
    (mm2(1.5), "iso", 18), (mm2(35), "iso", 160), (mm2(150), "iso", 380),  # ISO 13297 Table A.1, 70 °C
])
def test_the_insulation_that_is_usual_there(size, practice, amps):
    assert ampacity(size, practice).amps == amps


@pytest.mark.parametrize("practice, insulation, amps", [
    ("abyc", 90, 30), ("abyc", 104.9, 30), ("abyc", 105, 35), ("abyc", 110, 35), ("abyc", 60, 20), ("abyc", 250, 45),
    ("nec", 90, 25), ("nec", 105, 25), ("nec", 60, 15), ("nec", 70, 15),
])
def test_between_two_columns_the_lower_counts(practice, insulation, amps):
    assert ampacity(awg(14), practice, insulation, terminations=90).amps == amps


@pytest.mark.parametrize("size, circuit, amps", [
    (awg(14), None, 15), (awg(14), 15, 15), (awg(14), 100, 15), (awg(14), 100.1, 20),
    (awg(2), 100, 95), (awg(2), 110, 115), (awg(1), None, 110), (awg(1), 125, 130),
    (awg(0), None, 150), (awg(0), 100, 125), (awg(0), 150, 150), (awg(-3), None, 230),
    (mm2(35), None, 95),  # counts as 2 AWG, of 33.6 mm²
    (mm2(50), None, 130),  # counts as 1 AWG, but is thicker than it
])
def test_terminals_hold_the_ampacity_down_by_nec_110_14_c(size, circuit, amps):
    """60 °C in circuits of up to 100 A, or where that is not known for 14 to 1 AWG; 75 °C above. Insulation 90 °C."""
    found = ampacity(size, "nec", 90, circuit=circuit)
    assert found.amps == amps and found.terminals in (60, 75) and "110.14(C)" in found.note


@pytest.mark.parametrize("degrees, amps, told", [(60, 40, 60), (74, 40, 74), (75, 50, 75), (89, 50, 89), (90, 55, None),
                                                 (105, 55, None)])
def test_terminals_that_are_marked(degrees, amps, told):
    """8 AWG of 90 °C insulation: 40, 50 and 55 A in the columns of Table 310.16."""
    found = ampacity(awg(8), "nec", 90, terminations=degrees)
    assert (found.amps, found.terminals) == (amps, told)


def test_terminals_and_factors_do_not_multiply():
    """110.14(C): insulation above that of the terminals is used up first by heat and company: 90 °C, 8 AWG, 55 A."""
    def amps(**where):
        return ampacity(awg(8), "nec", 90, **where).amps

    assert amps(bundle=6) == 40  # 44 A of the insulation
    assert amps(bundle=9) == pytest.approx(38.5) and amps(ambient=50) == 40
    assert amps(ambient=60) == pytest.approx(55 * 0.71)


def test_a_size_without_a_cell_for_its_terminals_keeps_its_own():
    """18 and 16 AWG stand in the 90 °C column only."""
    assert ampacity(awg(16), "nec", 90).amps == 18


@pytest.mark.parametrize("size, insulation, terminations, amps", [
    (awg(12), 90, 90, 25), (awg(8), None, 75, 40), (awg(8), None, None, 35), (awg(-3), 90, None, 180), (mm2(50), 75, 75, 100),
])
def test_aluminium_under_nec(size, insulation, terminations, amps):
    """NEC Table 310.16, aluminium columns; 50 mm² counts as 1 AWG."""
    found = ampacity(size, "nec", insulation, terminations=terminations, material="aluminium")
    assert found.amps == amps and "aluminium" in found.table


def test_aluminium_is_not_thinner_than_12_awg_and_not_in_the_tables_for_boats():
    for practice, size in (("nec", awg(14)), ("abyc", awg(4)), ("cfr", awg(4)), ("iso", mm2(25))):
        with pytest.raises(OutsideTable):
            ampacity(size, practice, material="aluminium")
    with pytest.raises(OutsideTable, match="for copper only, this is aluminium"):
        ampacity(mm2(25), "iso", ac=True, material="aluminium")


@pytest.mark.parametrize("practice", PRACTICES)
def test_tinned_copper_counts_as_copper(practice):
    assert ampacity(mm2(10), practice, material="tinned") == ampacity(mm2(10), practice)


def test_only_nec_asks_for_the_terminals():
    for practice in ("abyc", "cfr", "iso"):
        assert ampacity(mm2(10), practice, terminations=60, circuit=10) == ampacity(mm2(10), practice)


def test_parallel_conductors_at_terminals():
    found = ampacity(awg(0), "nec", 90, parallel=2)
    assert found.amps == 300 and "2 parallel" in found.note


def test_iso_column_85_is_for_85_to_90():
    assert ampacity(mm2(10), "iso", 85).amps == ampacity(mm2(10), "iso", 90).amps == 70
    assert ampacity(mm2(10), "iso", 84).amps == 65


@pytest.mark.parametrize("size, practice, counts_as, amps", [
    (mm2(35), "abyc", "2 AWG", 210),  # 35 mm² is 4 % above 2 AWG
    (mm2(25), "abyc", "4 AWG", 160),  # below 3 AWG (26.67 mm²)
    (mm2(120), "abyc", "4/0 AWG", 445),
    (awg(-1), "iso", "50 mm²", 210),  # 67.43 mm² is below 70
    (awg(0), "iso", "50 mm²", 210),
    (awg(14), "iso", "1.5 mm²", 18),
    (awg(5), "abyc", "6 AWG", 120),  # not listed in its own system either
    (mm2(1.25), "iso", "1 mm²", 14),
])
def test_a_size_that_is_not_listed_counts_as_the_next_smaller(size, practice, counts_as, amps):
    found = ampacity(size, practice)
    assert found.amps == amps
    assert found.table.endswith(counts_as) and found.note == f"{size.label} counts as {counts_as}"


@pytest.mark.parametrize("call", [
    lambda: ampacity(awg(20), "abyc"),  # smaller than the table
    lambda: ampacity(mm2(0.5), "iso"),
    lambda: ampacity(awg(16), "nec"),  # no cell at 75 °C
    lambda: ampacity(Size("kcmil", 300), "abyc"),  # larger, in its own system
    lambda: ampacity(mm2(185), "iso"),
    lambda: ampacity(awg(14), "nec", terminations=59),  # terminals below the first column
    lambda: ampacity(awg(14), "abyc", 50),  # insulation below the first column
    lambda: ampacity(mm2(10), "iso", 60, engine_space=True),  # ISO 10133: 70 °C at least
    lambda: ampacity(awg(14), "nec", ambient=75),  # NEC: no factor
    lambda: ampacity(awg(14), "abyc", 75, ambient=75),
    lambda: ampacity(mm2(10), "iso", 60, ac=True),
    lambda: ampacity(mm2(150), "iso", ac=True),  # method C column ends at 120 mm²
])
def test_outside_the_table(call):
    with pytest.raises(OutsideTable):
        call()


@pytest.mark.parametrize("size, practice, insulation, origin", [
    (awg(14), "abyc", 105, "read"), (mm2(35), "iso", 70, "read"), (mm2(95), "iso", 70, "memory"),
    (mm2(35), "iso", 105, "memory"), (awg(14), "nec", 75, "read"), (Size("kcmil", 250), "nec", 75, "memory"),
])
def test_where_the_number_comes_from(size, practice, insulation, origin):
    assert ampacity(size, practice, insulation).provenance == origin


def test_unknown_practice():
    with pytest.raises(ValueError, match="unknown practice"):
        ampacity(awg(14), "din")


@pytest.mark.parametrize("size, outside, inside", [  # UL 1426 boat cable, 105 °C, as printed for ABYC E-11
    (awg(18), 20, 17), (awg(8), 80, 68), (awg(4), 160, 136), (awg(2), 210, 178.5), (awg(-3), 445, 378.25),
])
@pytest.mark.parametrize("together, factor", [
    (1, 1), (2, 1), (3, 0.7), (4, 0.6), (6, 0.6), (7, 0.5), (24, 0.5), (25, 0.4),
])
def test_abyc_bundles_and_engine_spaces(size, outside, inside, together, factor):
    def amps(**where):
        return ampacity(size, "abyc", bundle=together, bundle_below_50=True, **where).amps

    assert amps() == pytest.approx(outside * factor)
    assert amps(engine_space=True) == pytest.approx(inside * factor, abs=0.05)


def test_bundles_bind_from_50_volts_under_33_cfr_183_435():
    """Below, only where the option for later editions of ABYC E-11 is on."""
    def amps(**where):
        return ampacity(awg(10), "abyc", bundle=5, **where).amps

    assert amps() == amps(volts=48) == 60
    assert amps(volts=50) == amps(ac=True) == amps(bundle_below_50=True) == 36


def test_nec_factors():
    """Tables 310.15(B)(1)(1) and 310.15(C)(1): 12 AWG, 90 °C column 30 A."""
    assert ampacity(awg(12), "nec", 90, ambient=55, terminations=90).amps == pytest.approx(22.8)
    assert ampacity(awg(12), "nec", 90, ambient=52, bundle=9).amps == pytest.approx(30 * 0.76 * 0.7)
    assert ampacity(awg(12), "nec", 90, bundle=3, terminations=90).amps == 30
    assert ampacity(awg(12), "nec", engine_space=True).amps == pytest.approx(25 * 0.75)  # counts as 50 °C


def test_iso_dc_factors():
    """ISO 10133 Table A.1 notes, from memory: 70 °C insulation 0.75 in engine spaces; 4 to 6 together 0.7."""
    assert ampacity(mm2(10), "iso", engine_space=True).amps == pytest.approx(65 * 0.75)
    assert ampacity(mm2(10), "iso", bundle=4).amps == pytest.approx(65 * 0.7)
    assert ampacity(mm2(10), "iso", bundle=3).amps == 65


def test_iso_ac_is_iec_60364_5_52_method_c():
    assert ampacity(mm2(2.5), "iso", ac=True).amps == 27
    assert ampacity(mm2(2.5), "iso", 90, ac=True).amps == 33
    assert ampacity(mm2(2.5), "iso", 85, ac=True).amps == 27
    assert ampacity(mm2(2.5), "iso", ac=True, ambient=42).amps == pytest.approx(27 * 0.79)
    assert ampacity(mm2(2.5), "iso", ac=True, bundle=4).amps == pytest.approx(27 * 0.8)  # two circuits
    assert ampacity(mm2(2.5), "iso", ac=True, bundle=22).amps == pytest.approx(27 * 0.45)  # eleven: as twelve


def test_heat_outside_an_engine_space_by_the_formula_behind_the_tables():
    """NEC 310.15(B): sqrt((T - ambient) / (T - 30)); it never raises an ampacity."""
    assert ampacity(awg(10), "abyc", ambient=50).amps == pytest.approx(60 * (55 / 75) ** 0.5)
    assert ampacity(awg(10), "abyc", ambient=0).amps == 60


def test_heat_and_engine_space_count_once():
    """Both stand for the heat around the conductor: the worse of the two."""
    assert ampacity(awg(10), "abyc", ambient=40, engine_space=True).amps == 60 * 0.85
    hotter = ampacity(awg(10), "abyc", ambient=70, engine_space=True).amps
    assert hotter == pytest.approx(60 * (35 / 75) ** 0.5)


def test_parallel_conductors_add():
    found = ampacity(awg(0), "abyc", parallel=2)
    assert found.amps == 570 and "2 parallel" in found.note


@given(st.sampled_from(PRACTICES), st.sampled_from([18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, 0, -1, -2, -3]),
       st.sampled_from([0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150]))
def test_the_thicker_of_two_conductors_never_carries_less(practice, number, square):
    one, two = sorted((awg(number), mm2(square)), key=area)
    try:
        assert ampacity(one, practice).amps <= ampacity(two, practice).amps
    except OutsideTable:
        pass


@given(st.sampled_from(PRACTICES), st.integers(31, 59), st.integers(1, 50))
def test_heat_and_company_never_help(practice, ambient, bundle):
    size = mm2(10) if practice == "iso" else awg(8)
    plain = ampacity(size, practice).amps
    worse = ampacity(size, practice, ambient=ambient, bundle=bundle, bundle_below_50=True).amps
    assert worse <= plain
