"""Where the currents of battery leads are a symptom."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
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
