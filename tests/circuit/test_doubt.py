"""Where the currents of battery leads are a symptom."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.electrics.battery import window
from tests.circuit.cases import system

TEXT = """
nodes:
  one: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}}
  two: {{kind: battery, chemistry: {two}, voltage: 12 V, capacity: 100 Ah{more}}}
  bar: {{kind: bar, rating: 200 A, pair: back}}
  back: {{kind: bar, rating: 200 A}}
  lamp: {{kind: load, voltage: 12 V, power: 10 W}}
circuits:
  - {{name: first, feed: one/fuse 100 A -> bar, wire: 2 AWG 1 m}}
  - {{name: second, {second}, wire: 2 AWG 1 m}}
  - {{name: lamp, feed: bar/fuse 5 A -> lamp, wire: 14 AWG 1 m}}
"""
BESIDE = "feed: two/fuse 100 A -> bar"


@pytest.mark.parametrize(("two", "more", "second", "lines"), [
    ("agm", "", BESIDE, set()),
    ("flooded", "", BESIDE, {"first", "second"}),  # unlike voltages drive a current through each other
    ("flooded", ", duty: starter", BESIDE, set()),  # of another duty: what joins them is looked at elsewhere
    ("agm", "", "feed: two.- -> bar, return: two.+ -> back", {"first", "second"}),  # it is left out
])
def test_the_leads_of_batteries(two, more, second, lines):
    assert Survey(system(TEXT.format(two=two, more=more, second=second))).doubtful == lines


ALONE = """
nodes:
  two: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  bar: {kind: bar, rating: 200 A, pair: back}
  back: {kind: bar, rating: 200 A}
  sub: {kind: bar, rating: 100 A, pair: back}
  lamp: {kind: load, voltage: 12 V, power: 10 W}
  mill: {kind: wind charger, output: 20 A}
  SPARE
  heater: {kind: load, voltage: 12 V, power: 10 W}
circuits:
  - {name: second, MAIN, wire: 2 AWG 1 m}
  - {name: lamp, feed: sub/fuse 5 A -> lamp, wire: 14 AWG 1 m}
  - {name: sub, feed: bar/fuse 50 A -> sub, wire: 6 AWG 1 m}
  - {name: mill, feed: mill -> fuse 30 A/bar, wire: 10 AWG 1 m}
  HOLD
  - {name: heater, feed: mill.dump -> heater, return: none, wire: 10 AWG 1 m}
"""
SPARE = "spare: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}"


def test_what_a_battery_holds_by_another_line_is_in_no_doubt():
    """A second lead lies across the poles; the first still stands where the mill and the loads are."""
    across = "- {name: across, feed: two.- -> bar, return: none, wire: 2 AWG 1 m}"
    text = ALONE.replace("MAIN", "feed: two/fuse 100 A -> bar").replace("  SPARE\n", "").replace("HOLD", across)
    survey = Survey(system(text))
    assert [fact.mark for fact in survey.poles] == ["short-circuit@across:f0"]
    assert survey.doubtful == {"second", "across"}


@pytest.mark.parametrize(("two", "apart"), [("agm", False), ("gel", False), ("flooded", True)])
def test_unlike_is_what_is_empty_at_another_voltage(two, apart):
    """AGM and gel cells are empty at the same voltage, flooded ones lower (table of batteries)."""
    rows = [window(chemistry, 12).cutoff for chemistry in ("agm", two)]
    assert (rows[0] != rows[1]) is apart
    assert bool(Survey(system(TEXT.format(two=two, more="", second=BESIDE))).doubtful) is apart


@pytest.mark.parametrize(("main", "spare", "hold", "lines"), [
    ("feed: two/fuse 100 A -> bar", "", "", set()),
    ("feed: two.- -> bar, return: two.+ -> back", "", "", {"second", "lamp", "sub", "mill"}),  # no battery holds these
    ("feed: two.- -> bar, return: two.+ -> back", SPARE, "- {name: hold, feed: spare/fuse 60 A -> sub, wire: 6 AWG 1 m}",
     {"second", "hold"}),
    ("feed: two.- -> bar, return: two.+ -> back", "radio: {kind: load, voltage: 12 V, power: 10 W}\n  aux: {kind: bar, rating: 50 A}",
     "- {name: aux, feed: two/fuse 30 A -> aux, return: none, wire: 10 AWG 1 m}\n"
     "  - {name: radio, feed: aux -> radio, return: none, wire: 14 AWG 1 m}",
     {"second", "lamp", "sub", "mill", "aux"}),  # what the battery still feeds, it holds
])
def test_what_no_battery_holds_without_its_own_line(main, spare, hold, lines):
    text = ALONE.replace("MAIN", main).replace("  SPARE\n", f"  {spare}\n" if spare else "").replace("  HOLD\n", f"  {hold}\n" if hold else "")
    assert Survey(system(text)).doubtful == lines
