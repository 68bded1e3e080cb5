"""What a conductor may carry where it runs, and which devices it may have."""

from __future__ import annotations

import math

import pytest

from diagrammer.circuit.carrying import rated_circuits
from diagrammer.circuit.survey import Survey
from diagrammer.quantity import awg
from tests.circuit.cases import system

TEXT = """
practice: PRACTICE
SITE
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  box: {kind: inverter, power: 1 kW, neutral: bonded}
  lamp: {kind: load, voltage: 12 V, power: 10 W}
  kettle: {kind: ac load, power: 500 W}
circuits:
  - {name: dc, feed: bank/fuse 15 A -> lamp, wire: {WIRE}}
  - {name: box, feed: bank/fuse 150 A -> box, wire: 2/0 AWG 1 m}
  - {name: ac, ac: box/breaker 15 A -> kettle, wire: {WIRE}}
"""


def limit(wire: str, practice: str = "abyc", site: str = "", circuit: str = "dc", volts: float = 12.0):
    text = TEXT.replace("PRACTICE", practice).replace("WIRE", wire).replace("SITE", site and f"site: {{{site}}}")
    one = system(text)
    return Survey(one).carrying.limit(next(wire for wire in one.conductors if wire.circuit == circuit), volts)


TEN = "size: 10 AWG, length: 1 m"


@pytest.mark.parametrize(("own", "site", "degrees"), [
    ("", "", 30), ("", "hottest: 20 °C", 30), ("", "hottest: 50 °C", 50), (", ambient: 60 °C", "", 60),
    (", ambient: 40 °C", "hottest: 50 °C", 40), (", ambient: 60 °C", "hottest: 50 °C", 60),
    (", ambient: 10 °C", "hottest: 50 °C", 30),
])
def test_heat_around_a_wire_is_its_own_or_else_the_site_s_and_cold_is_no_gain(own, site, degrees):
    """60 A at 30 °C for 10 AWG of 105 °C (33 CFR 183.425 Table 5, read); the formula of NEC 310.15(B) above."""
    assert limit(TEN + own, site=site).ampacity.amps == pytest.approx(60 * math.sqrt((105 - degrees) / 75))


def test_cold_is_no_gain_by_a_table_that_has_one():
    """NEC Table 310.15(B)(1): 1.15 for 75 °C at 15 °C; 10 AWG 35 A, 0.88 at 40 °C (read)."""
    own = TEN + ", insulation: 75 °C, terminations: 75 °C"
    assert limit(own + ", ambient: 15 °C", "nec").ampacity.amps == 35
    assert limit(own, "nec", "hottest: 15 °C").ampacity.amps == 35
    assert limit(own, "nec", "hottest: 40 °C").ampacity.amps == pytest.approx(35 * 0.88)


@pytest.mark.parametrize(("bundle", "share"), [("", 1), (", bundle: 2", 1), (", bundle: 3", 0.7), (", bundle: 4", 0.6)])
@pytest.mark.parametrize(("circuit", "volts"), [("ac", 120.0), ("dc", 50.0)])
def test_three_wires_together_carry_less(bundle, share, circuit, volts):
    """33 CFR 183.435(b) (read): three loaded conductors together 0.7, four to six 0.6."""
    assert limit(TEN + bundle, circuit=circuit, volts=volts).ampacity.amps == pytest.approx(60 * share)
    assert limit(TEN + bundle, volts=49.9).ampacity.amps == 60  # binds from 50 V on


def test_an_engine_space_takes_its_share_and_other_places_none():
    """33 CFR 183.425 Table 5 note 1: 0.85 for 105 °C (read)."""
    assert limit(TEN + ", in: engine-space").ampacity.amps == pytest.approx(60 * 0.85)
    assert limit(TEN + ", in: [conduit, engine-space]").ampacity.amps == pytest.approx(60 * 0.85)
    assert limit(TEN + ", in: conduit").ampacity.amps == 60


def test_small_conductors_are_limited_alone_not_side_by_side():
    """NEC 240.4(D): 14 AWG copper 15 A whatever its ampacity; 240.4(B): else the next standard rating."""
    own = ", insulation: 75 °C, terminations: 75 °C"
    alone, two = limit(f"size: 14 AWG, length: 1 m{own}", "nec"), limit(f"size: 14 AWG, length: 1 m, parallel: 2{own}", "nec")
    assert (alone.ampacity.amps, alone.one, alone.several) == (20, 15, 20)
    assert (two.ampacity.amps, two.one, two.several) == (40, 40, 40)


def test_one_device_may_be_the_next_standard_rating_and_several_the_ampacity_times_a_half_more():
    """ABYC E-11 11.10: 150 % of 60 A at most, but the next standard rating of 60 A is 60 A itself."""
    found = limit(TEN)
    assert (found.one, found.several) == (60, 90)


@pytest.mark.parametrize("wire", ["length: 1 m", "size: 24 AWG, length: 1 m", TEN + ", ambient: 110 °C"])
def test_no_limit_without_a_size_or_outside_the_tables(wire):
    assert limit(wire) is None


def test_the_limit_of_another_size_is_that_of_the_same_wire():
    one = system(TEXT.replace("PRACTICE", "abyc").replace("WIRE", TEN + ", in: engine-space").replace("SITE", ""))
    carrying, (wire, *_) = Survey(one).carrying, one.conductors
    assert carrying.of_size(awg(10), wire, 12.0) == carrying.limit(wire, 12.0)
    assert carrying.of_size(awg(8), wire, 12.0).ampacity.amps == pytest.approx(80 * 0.85)
    ac = next(wire for wire in one.conductors if wire.circuit == "ac")
    assert carrying.of_size(awg(10), ac, 120.0) == carrying.limit(ac, 120.0)


RATED = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah}
  bar: {kind: bar, rating: 200 A}
  lamp: {kind: load, voltage: 12 V, power: 10 W}
  fan: {kind: load, voltage: 12 V, power: 10 W}
  pump: {kind: load, voltage: 12 V, power: 10 W}
  box: {kind: inverter, power: 1 kW, neutral: bonded}
  kettle: {kind: ac load, power: 500 W}
circuits:
  - {name: main, feed: bank/fuse 100 A -> switch 300 A -> breaker 60 A -> bar, return: none, wire: 2 AWG 1 m}
  - {name: lamp, feed: bar -> switch 30 A -> lamp, wire: 14 AWG 1 m}
  - {name: fan, feed: bar/fuse -> fan, wire: 14 AWG 1 m}
  - {name: pump, feed: bar/fuse 0.5 A -> pump, wire: 14 AWG 1 m}
  - {name: box, feed: bank/fuse 150 A -> box, wire: 2/0 AWG 1 m}
  - {name: ac, ac: box/rcbo 16 A -> kettle, wire: 14 AWG 1 m}
"""


def test_a_circuit_is_rated_by_the_largest_of_its_own_overcurrent_devices():
    """NEC 110.14(C)(1); a switch protects nothing."""
    assert rated_circuits(system(RATED)) == {"main": 100, "pump": 0.5, "box": 150, "ac": 16}


@pytest.mark.parametrize(("device", "amps"), [("fuse 100 A", 55), ("fuse 110 A", 65)])
def test_terminals_of_a_circuit_up_to_100_A_count_as_60_degrees(device, amps):
    """NEC 110.14(C)(1) (read): to 100 A as 60 °C, above as 75 °C: 6 AWG 55 A or 65 A. Elsewhere nothing of the kind."""
    for practice, expected in (("nec", amps), ("abyc", 120)):
        text = RATED.replace("fuse 100 A", device).replace("2 AWG 1 m", "6 AWG 1 m")
        one = system(f"practice: {practice}{text}")
        carrying = Survey(one).carrying
        assert carrying.limit(one.conductors[0], 12.0).ampacity.amps == expected
        assert carrying.of_size(awg(6), one.conductors[0], 12.0).ampacity.amps == expected
