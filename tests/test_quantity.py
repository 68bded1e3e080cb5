"""Numbers with units: exact conversions, round trips, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagrammer.quantity import DIMENSIONS, Size, Unreadable, awg, measure, mm2, show, size


@pytest.mark.parametrize(("text", "dimension", "value"), [
    ("250 A", "current", 250), ("250A", "current", 250), ("8 kA", "current", 8000), ("30 mA", "current", 0.03),
    ("12.5 A", "current", 12.5), (".5 A", "current", 0.5),
    ("3 kW", "power", 3000), ("2 kVA", "power", 2000),
    ("1 hp", "power", 745.6998715822702),  # 550 ft lbf/s, exact from 0.3048 m and 0.45359237 kg
    ("280 Ah", "charge", 280), ("5.1 kWh", "energy", 5100), ("47 Ω", "resistance", 47), ("47 \u2126", "resistance", 47),
    ("5 mΩ", "resistance", 0.005),
    ("100 µΩ", "resistance", 1e-4), ("100 \u03bcΩ", "resistance", 1e-4), ("2 kohm", "resistance", 2000),
    ("1 ft", "length", 0.3048), ("6 in", "length", 0.1524), ("4 ft 6 in", "length", 1.3716),
    ("4ft 6in", "length", 1.3716), ("1/2 in", "length", 0.0127),  # 1 in = 25.4 mm, exact
    ("1 1/2 ft", "length", 0.4572), ("80 cm", "length", 0.8), ("3 ft 1/2 in", "length", 0.9271),
    ("4 mm", "length", 0.004),
    ("40 °C", "temperature", 40), ("104 °F", "temperature", 40), ("32 °F", "temperature", 0),
    ("-40 °F", "temperature", -40), ("273.15 K", "temperature", 0),
    ("−15 °C", "temperature", -15), ("20 ºC", "temperature", 20), ("212 degF", "temperature", 100),
    ("-0.28 %/°C", "drift", -0.28), ("-0.28 %/K", "drift", -0.28), ("-60 mV/°C", "voltage drift", -0.06),
    ("2 days", "duration", 48), ("90 min", "duration", 1.5),
    ("92 %", "share", 92), ("50 Hz", "frequency", 50), ("+5 V", "voltage", 5), ("  5   V ", "voltage", 5),
])
def test_reading(text, dimension, value):
    found = measure(text, dimension)
    assert found.value == pytest.approx(value, rel=1e-12, abs=1e-9) and found.dimension == dimension


@pytest.mark.parametrize(("text", "message"), [
    ("", "does not begin with a number"), ("A", "does not begin with a number"),
    ("5", "`5` has no unit; a current is wanted here, in A, mA, kA"),
    ("5 V", "`5 V` is a voltage; a current is wanted"),
    ("5 a", "did you mean `A`?"), ("5 KA", "did you mean `kA`?"), ("5 amp", "`amp` is no unit"),
    ("1,5 A", "no thousands mark"), ("1 000 A", "`000 A` is no unit"), ("5 A A", "`A A` is no unit"),
    ("1e3 A", "`e3 A` is no unit"), ("5 AWG", "`AWG` is no unit"), ("1/0 A", "is no unit"), ("--5 A", "does not begin"),
    ("٣ A", "does not begin with a number"), ("5 " + "x" * 100, "is no quantity"),
    ("nan A", "does not begin"), ("inf A", "does not begin"), ("0x10 A", "is no unit"),
])
def test_what_is_no_current(text, message):
    with pytest.raises(Unreadable) as caught:
        measure(text, "current")
    assert message in str(caught.value)


def test_several_dimensions_are_all_told():
    with pytest.raises(Unreadable, match="a charge \\(Ah\\) or an energy \\(Wh\\) is wanted here"):
        measure("5 V", "charge", "energy")


@given(st.sampled_from([(dimension, unit) for dimension, (_, units) in DIMENSIONS.items() for unit in units]),
       st.decimals(0, 10**6, places=3))
def test_every_unit_reads_back(spelling, number):
    dimension, unit = spelling
    one, two = measure(f"{number} {unit}", dimension).value, measure(f"{number}{unit}", dimension).value
    assert one == two
    factor = DIMENSIONS[dimension][1][unit]
    base = measure(f"0 {unit}", dimension).value
    assert one == pytest.approx(base + float(number) * factor, rel=1e-9, abs=1e-9)


def test_no_unit_belongs_to_two_dimensions():
    units = [unit for _, units in DIMENSIONS.values() for unit in units]
    assert len(units) == len(set(units))


SIZES = st.one_of(st.integers(-3, 40).map(awg),
                  st.sampled_from([0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120]).map(mm2),
                  st.integers(250, 2000).map(lambda n: Size("kcmil", n)))


@given(SIZES)
def test_a_size_reads_back_from_its_label(one):
    assert size(one.label) == one


@pytest.mark.parametrize(("text", "expected"), [
    ("4/0 AWG", awg(-3)), ("4/0", awg(-3)), ("1/0AWG", awg(0)), ("10 AWG", awg(10)), ("70 mm²", mm2(70)),
    ("70 mm2", mm2(70)), ("2.5mm²", mm2(2.5)), ("250 kcmil", Size("kcmil", 250)),
])
def test_sizes(text, expected):
    assert size(text) == expected


@pytest.mark.parametrize("text",
                         ["", "10", "AWG", "5/0 AWG", "0/0", "10.5 AWG", "41 AWG", "4/0 mm²", "-1 AWG", "0 mm²",
                          "10 awg", "2 x 70 mm²", "10 m", "ten AWG"])
def test_what_is_no_size(text):
    with pytest.raises(Unreadable):
        size(text)


@given(st.floats(0.001, 9.99e5),
       st.sampled_from([("V", "voltage"), ("A", "current"), ("W", "power"), ("Ω", "resistance"), ("m", "length")]))
def test_what_is_shown_reads_back_to_three_digits(value, unit):
    shown = show(value, unit[0])
    assert measure(shown, unit[1]).value == pytest.approx(value, rel=5.1e-3, abs=6e-4)


@pytest.mark.parametrize(("value", "unit", "shown"), [
    (12.5, "A", "12.5 A"), (1200, "A", "1.2 kA"), (0.03, "A", "30 mA"), (0.1778, "m", "0.178 m"), (100, "V", "100 V"),
    (0, "A", "0 A"), (999.6, "A", "1 kA"), (2000, "m", "2000 m"), (-1500, "W", "-1.5 kW"),
    (0.0999, "V", "99.9 mV"), (99.96, "A", "100 A"),
])
def test_showing(value, unit, shown):
    assert show(value, unit) == shown
