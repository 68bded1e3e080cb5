"""The voltages of nets: nominal and at most, of stacks, of batteries and what charges them."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.voltages import coldest
from tests.circuit.cases import system

TEXT = """
nodes:
  low: {kind: battery, CHEMISTRY, voltage: 12 V, capacity: 100 Ah}
  high: {kind: battery, CHEMISTRY, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 24 V, power: 20 W}
circuits:
  - {name: link, series: low/fuse 100 A -> high, wire: 2 AWG 0.3 m}
  - {name: lamp, feed: high/fuse 10 A -> lamp, return: lamp -> low, wire: 14 AWG 2 m}
"""


def voltages(chemistry: str):
    return Survey(system(TEXT.replace("CHEMISTRY", chemistry))).voltages


def test_a_stack_adds_up():
    known = voltages("chemistry: agm")
    assert [known.nominal(terminal) for terminal in ("lamp.+", "high.-", "lamp.-")] == [24, 12, 0]
    assert known.of_line("lamp") == 24 and known.of_line("link") == 12


def test_at_most_what_is_stated():
    assert voltages("chemistry: agm, max voltage: 14.2 V").highest("lamp.+") == pytest.approx(28.4)


def test_flooded_cells_are_equalised_and_lithium_is_not():
    flooded, lithium = voltages("chemistry: flooded"), voltages("chemistry: lifepo4")
    assert flooded.highest("lamp.+") == pytest.approx(31.2)  # 2.6 V a cell, 12 cells
    assert lithium.highest("lamp.+") == pytest.approx(29.2)  # 3.65 V a cell, 8 cells


class Pv(dict):
    """The fields of a pv node."""


@pytest.mark.parametrize(("fields", "celsius", "volts"), [
    ({"voc": 20.0, "series": 1}, None, 20.0), ({"voc": 20.0, "series": 2}, None, 40.0), ({"voc": 20.0, "series": 2}, 25.0, 40.0),
    ({"voc": 20.0, "series": 2}, -10.0, 40.0 * 1.14), ({"voc": 20.0, "series": 1}, -10.0, 20.0 * 1.14),
    ({"voc": 20.0, "series": 3}, -70.0, 60.0 * 1.25), ({"voc": 20.0, "series": 1}, 60.0, 20.0),
])
def test_strings_in_the_cold(fields, celsius, volts):
    """NEC Table 690.7(A) (read)."""
    assert coldest(Pv(fields), celsius) == pytest.approx(volts)
