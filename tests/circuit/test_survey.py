"""What one check of a survey takes from those before it."""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system

TEXT = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  bar: {kind: bar, rating: 100 A, pair: back}
  back: {kind: bar, rating: 100 A}
  lamp: {kind: load, voltage: 12 V, power: 20 W}
  radio: {kind: load, voltage: VOLTS, power: 20 W}
circuits:
  - {name: main, feed: bank/fuse 50 A -> bar, return: bank -> back, wire: 6 AWG 1 m}
  - {name: lamp, feed: bar/fuse 5 A -> lamp, return: BACK, wire: 14 AWG 1 m}
  - {name: radio, feed: bar/fuse 5 A -> radio, wire: 14 AWG 1 m}
"""


def survey(volts: str = "12 V", back: str = "lamp -> back") -> Survey:
    return Survey(system(TEXT.replace("VOLTS", volts).replace("BACK", back)))


def test_a_bank_without_a_shunt_is_judged_by_what_follows():
    found = survey()
    assert "no-shunt" in {fact.rule for fact in found.measured}
    assert found.after_measured is found.after_domains and not found.after_measured.excused


def test_only_lines_with_crossed_poles_count_as_crossed():
    """A return that lands on a feed; a radio at the wrong voltage, whose poles are right."""
    found = survey("24 V", "lamp -> bar")
    assert found.poles and {found.start.line(fact) for fact in found.poles} == {"lamp"}
    assert found.after_poles.crossed == {"lamp"} == found.after_domains.crossed
    assert {"lamp", "radio"} <= found.after_domains.out


def test_the_lines_that_some_fact_blames():
    assert {"lamp", "radio"} <= survey("24 V", "lamp -> bar").lines and "main" not in survey().lines
    assert not {"lamp", "radio"} & survey().lines
