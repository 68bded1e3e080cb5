"""The voltages of nets: nominal and at most, of stacks, of batteries and what charges them."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.voltages import Voltages, coldest
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


NETS = """
site: {{coldest: -10 °C}}
nodes:
  one: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah{one}}}
  two: {{kind: battery, chemistry: flooded, voltage: 12 V, capacity: 100 Ah}}
  bar: {{kind: bar, rating: 200 A, pair: back}}
  back: {{kind: bar, rating: 200 A}}
  lone: {{kind: bar, rating: 200 A}}
  lamp: {{kind: load, voltage: 24 V, power: 10 W}}
  machine: {{kind: alternator, output: 60 A{machine}}}
  step: {{kind: converter, voltage: 24 V, output: 5 A}}
  roof: {{kind: pv, power: 100 W, voc: 20 V, isc: 6 A, series: 2}}
  sun: {{kind: solar charger, type: mppt, output: 20 A, max pv voltage: 100 V}}
  gen: {{kind: generator, power: 2 kW, neutral: floating, voltage: 120 V, phases: 2+N}}
  kettle: {{kind: ac load, power: 1 kW, voltage: 120 V}}
circuits:
  - {{name: one, feed: one/fuse 100 A -> bar, wire: 2 AWG 1 m}}
  - {{name: two, feed: two/fuse 100 A -> bar, wire: 2 AWG 1 m}}
  - {{name: lamp, feed: lone/fuse 5 A -> lamp, return: none, wire: 14 AWG 1 m}}
  - {{name: machine, feed: machine -> fuse 100 A/{lands}, return: none, wire: 4 AWG 1 m}}
  - {{name: step, feed: step/fuse 5 A -> sun.sense, return: none, wire: 14 AWG 1 m}}
  - {{name: roof, feed: roof -> sun.pv, wire: 10 AWG 2 m}}
  - {{name: gen, ac: gen.L1 -> breaker 15 A -> kettle, wire: [14 AWG 1 m, 1 m]}}
"""


def nets(one: str = "", machine: str = "", lands: str = "bar"):
    return Survey(system(NETS.format(one=one, machine=machine, lands=lands))).voltages


def test_what_feeds_a_net_says_its_voltage_and_what_it_feeds_does_not():
    known = nets(lands="lone")
    assert known.nominal("bar") == 12 and known.of_line("one") == 12
    assert known.nominal("lone") == known.highest("lone") == 0 and known.of_line("lamp") == 0  # the machine says none, either
    assert known.nominal("back") == known.highest("back") == 0 and known.of_line("no such line") == 0
    assert nets(machine=", voltage: 28 V", lands="lone").nominal("lone") == 28


def test_a_converter_an_array_and_a_generator():
    known = nets()
    assert known.nominal("step.+") == known.highest("step.+") == 24
    assert known.nominal("roof.+") == 40 and known.highest("roof.+") == pytest.approx(40 * 1.14)  # NEC Table 690.7(A) (read)
    assert known.nominal("gen.L1") == 120 and known.highest("gen.L1") == 240


@pytest.mark.parametrize(("one", "machine", "volts"), [
    ("", "", 15.6), ("", ", voltage: 15.8 V", 15.8), ("", ", voltage: 14 V", 15.6), (", max voltage: 15.9 V", "", 15.9),
    (", max voltage: 14 V", "", 15.6),
])
def test_the_highest_of_all_that_meets_there(one, machine, volts):
    """Two batteries side by side and an alternator: flooded cells are equalised at 2.6 V each."""
    assert nets(one, machine).highest("bar") == pytest.approx(volts)


def test_the_nominal_voltage_is_the_bank_s_and_not_what_charges_it():
    assert nets(machine=", voltage: 14.4 V").nominal("bar") == 12


def test_batteries_in_a_ring_end():
    ring = TEXT.replace("CHEMISTRY", "chemistry: agm") + "  - {name: back, series: high -> low, wire: 2 AWG 1 m}\n"
    assert Voltages(Survey(system(ring)).start).nominal("lamp.+") == 24


@pytest.mark.parametrize(("chemistry", "volts"), [("agm", 14.7), ("gel", 14.4)])
def test_sealed_cells(chemistry, volts):
    assert voltages(f"chemistry: {chemistry}").highest("lamp.+") == pytest.approx(2 * volts)
