"""What is computed once: momentary loads are on one at a time."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.read import read

TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 200 kA}
  bar: {kind: bar, rating: 300 A}
  fridge: {kind: load, voltage: 12 V, current: 5 A, hours: 10}
  winch: {kind: load, voltage: 12 V, current: 90 A, hours: 0.1}
  horn: {kind: load, voltage: 12 V, current: 20 A, hours: 0.05}
circuits:
  - {name: main, feed: bank/fuse 200 A -> bar, return: none, wire: 2/0 AWG 1 m}
  - {name: fridge, feed: bar/fuse 10 A -> fridge, return: fridge -> bank, wire: 12 AWG 2 m}
  - {name: winch, feed: bar/fuse 100 A -> winch, return: winch -> bank, wire: 2 AWG 2 m}
  - {name: horn, feed: bar/fuse 30 A -> horn, return: horn -> bank, wire: 10 AWG 2 m}
"""


def amps(text):
    system, problems = read(text)
    assert not problems
    loading = Survey(system).loading
    return {one.circuit: loading.conductor(one).amps for one in system.conductors if one.side == "feed"}


def test_only_the_largest_of_the_momentary_loads_counts_on_what_they_share():
    found = amps(TEXT)
    assert found["main"] == pytest.approx(5 + 90)
    assert (found["fridge"], found["winch"], found["horn"]) == pytest.approx((5, 90, 20))


def test_a_load_of_a_quarter_hour_is_momentary_and_one_of_more_is_not():
    assert amps(TEXT.replace("hours: 0.05", "hours: 0.25"))["main"] == pytest.approx(95)
    assert amps(TEXT.replace("hours: 0.05", "hours: 0.26"))["main"] == pytest.approx(115)


def test_named_states_are_taken_as_they_are():
    assert amps(TEXT + "states: {all of it: {winch: on}}\n")["main"] == pytest.approx(115)
