"""How long a load runs, as people write it."""

from __future__ import annotations

import pytest

from diagrammer.netlist.read import read

NET = """\
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, power: 20 W, hours: %s}
circuits:
  - {feed: bank/fuse blade 5 A -> lamp, wire: 14 AWG 2 m}
"""


@pytest.mark.parametrize(("written", "hours"), [("0.25", 0.25), ("15 min", 0.25), ("2 h", 2.0), ("24", 24.0), ("1 day", 24.0)])
def test_hours_a_day_are_a_number_or_a_time(written, hours):
    system, problems = read(NET % written)
    assert not problems and system.nodes["lamp"]["hours"] == pytest.approx(hours)


@pytest.mark.parametrize(("written", "said"), [("25", "out of range"), ("2 days", "out of range"), ("3 V", "a duration is wanted")])
def test_what_is_no_part_of_a_day_is_refused(written, said):
    system, problems = read(NET % written)
    assert system is None and said in problems[0].message
