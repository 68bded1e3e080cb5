"""Arrays at a controller: levels in series, strings side by side, what is not stated."""

from __future__ import annotations

import pytest

from diagrammer.circuit.arrays import arrays
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system

TEXT = """
site: {coldest: -10 °C, hottest: 40 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  one: {kind: pv, power: 100 W, voc: 20 V, vmp: 16 V, isc: 6 A, ONE}
  two: {kind: pv, power: 100 W, voc: 22 V, VMP, isc: 5 A}
  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 20 A}
circuits:
  - LINES
  - {feed: sun -> fuse 30 A/bank, wire: 8 AWG 1 m}
"""
SERIES = """{feed: two -> sun.pv, return: none, wire: 10 AWG 2 m}
  - {return: one -> sun.pv, wire: 10 AWG 2 m}
  - {series: one -> two, wire: 10 AWG 1 m}"""
BESIDE = """{feed: one -> sun.pv, wire: 10 AWG 2 m}
  - {feed: two -> one, wire: 10 AWG 2 m}"""


def array(lines: str = SERIES, one: str = "imp: 5 A", vmp: str = "vmp: 18 V"):
    text = TEXT.replace("LINES", lines).replace("ONE", one).replace("VMP", vmp)
    (found,) = arrays(Survey(system(text)).start)
    return found


def test_in_series_voltages_add_up_and_the_weaker_module_says_the_current():
    found = array()
    assert found.open_voltage(None) == pytest.approx(42) and found.power_voltage(None) == pytest.approx(34)
    assert found.short_circuit() == pytest.approx(5) and found.power == pytest.approx(200)


def test_side_by_side_currents_add_up():
    found = array(BESIDE)
    assert found.open_voltage(None) == pytest.approx(22) and found.power_voltage(None) == pytest.approx(16)
    assert found.short_circuit() == pytest.approx(11) and found.power == pytest.approx(200)
    assert (("one", 16), ("two", 18)) in [tuple(sorted(group)) for group in found.side_by_side()]


def test_a_node_of_several_modules():
    found = array(BESIDE, one="imp: 5 A, series: 2, parallel: 3")
    assert found.open_voltage(None) == pytest.approx(40) and found.short_circuit() == pytest.approx(3 * 6 + 5)
    assert found.power == pytest.approx(700)


@pytest.mark.parametrize("lines", [SERIES, BESIDE])
def test_one_module_that_does_not_say_its_power_voltage_leaves_it_unknown(lines):
    found = array(lines, vmp="imp: 5 A")
    assert found.power_voltage(None) is None
    assert dict(group for groups in found.side_by_side() for group in groups)["two"] == pytest.approx(
        42 if lines == SERIES else 22)  # open voltages then


def test_heat_counts_by_the_drift_stated_and_not_at_all_without_one():
    assert array().power_voltage(40) == pytest.approx(34)
    drifting = array(one="imp: 5 A, vmp drift: -0.5 %/°C")
    assert drifting.power_voltage(40) < 34 and drifting.power_voltage(None) == pytest.approx(34)
    assert array(one="imp: 5 A, voc drift: -0.5 %/°C").power_voltage(40) == pytest.approx(drifting.power_voltage(40))


def test_cold_counts_by_the_drift_or_else_by_the_table_to_its_end():
    """NEC Table 690.7(A): 1.14 at -6 to -10 °C, 1.25 at -36 to -40 °C; below it nothing more is known (read)."""
    assert array().open_voltage(-10) == pytest.approx(42 * 1.14)
    assert array().open_voltage(-60) == array().open_voltage(-40) == pytest.approx(42 * 1.25)
    drifting = array(one="imp: 5 A, voc drift: -0.3 %/°C").open_voltage(-60)
    assert drifting == pytest.approx(20 * (1 + 0.003 * 85) + 22 * 1.25)


LONG = """{feed: two -> sun.pv, return: none, wire: 10 AWG 2 m}
  - {return: one -> sun.pv, wire: 10 AWG 2 m}
  - {series: one -> two, wire: 10 AWG 1 m}
  - {feed: three -> sun.pv, wire: 10 AWG 2 m}"""
THREE = "  three: {kind: pv, power: 150 W, voc: 30 V, vmp: 25 V, isc: 8 A, series: 3}"
"""One string of two modules, one of three in a node of its own."""


def unlike(lines: str = LONG, nodes: str = THREE):
    text = TEXT.replace("LINES", lines).replace("ONE", "imp: 5 A").replace("VMP", "vmp: 18 V")
    (found,) = arrays(Survey(system(text.replace("  sun:", f"{nodes}\n  sun:"))).start)
    return found


def test_of_unlike_strings_the_highest_is_the_open_and_the_lowest_the_power_voltage():
    found = unlike()
    assert found.open_voltage(None) == 90 and found.power_voltage(None) == 34
    assert found.short_circuit() == 5 + 8 and found.power == 100 + 100 + 3 * 150
    assert found.side_by_side()[-1] == (("two", 34), ("three", 75))


def test_a_level_of_unlike_modules_gives_its_least_power_voltage_and_its_largest_open_one():
    lines = BESIDE + "\n  - {feed: three -> one, wire: 10 AWG 2 m}"
    found = unlike(lines, THREE.replace(", series: 3", ", series: 1"))
    assert (found.open_voltage(None), found.power_voltage(None)) == (30, 16)
    assert found.side_by_side() == ((("one", 16), ("two", 18), ("three", 25)), (("one", 16),))


def test_every_controller_has_its_own_modules_and_none_those_it_does_not_reach():
    lines = """{feed: one -> sun.pv, wire: 10 AWG 2 m}
  - {feed: three -> other.pv, wire: 10 AWG 2 m}
  - {feed: other -> fuse 30 A/bank, wire: 8 AWG 1 m}"""
    nodes = "  other: {kind: dc charger, output: 20 A, max pv voltage: 100 V}\n" + THREE
    text = TEXT.replace("LINES", lines).replace("ONE", "imp: 5 A").replace("VMP", "vmp: 18 V")
    first, second = arrays(Survey(system(text.replace("  sun:", f"{nodes}\n  sun:"))).start)
    assert [(one.taker.name, one.port, [pv.name for pv in one.nodes]) for one in (first, second)] == [
        ("other", "other.pv.+", ["three"]), ("sun", "sun.pv.+", ["one"])]


def test_a_controller_without_modules_has_no_array():
    text = TEXT.replace("  - LINES\n", "").replace("ONE", "imp: 5 A").replace("VMP", "vmp: 18 V")
    assert arrays(Survey(system(text)).start) == ()
    lines = [line for line in text.splitlines() if "kind: pv" not in line]
    assert arrays(Survey(system("\n".join(lines))).start) == ()


def test_above_25_degrees_the_open_voltage_is_that_of_the_data_sheet():
    """NEC 690.7(A) raises in the cold only."""
    assert array().open_voltage(35) == 42
    assert array(one="imp: 5 A, voc drift: -0.3 %/°C").open_voltage(35) == 42
