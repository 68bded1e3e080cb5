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


MIXED = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 400 Ah, short circuit: 400 kA}
  twin: {kind: bank, chemistry: lifepo4, voltage: 25.6 V, capacity: 100 Ah, short circuit: 200 kA}
  bar: {kind: bar, rating: 300 A}
  fridge: {kind: load, voltage: 12 V, current: 5 A, hours: 10}
  winch: {kind: load, voltage: 12 V, current: 90 A, hours: 0.1}
  horn: {kind: load, voltage: 12 V, current: 20 A, hours: 0.05}
  inv: {kind: inverter, power: 3 kW, neutral: bonded}
  kettle: {kind: ac load, power: 1100 W, hours: 0.2, COUNT}
  iron: {kind: ac load, power: 400 W, hours: 5}
circuits:
  - {name: main, feed: bank/fuse 200 A -> bar, return: none, wire: 4/0 AWG 0.1 m}
  - {name: fridge, feed: bar/fuse 10 A -> fridge, return: fridge -> bank, wire: 4/0 AWG 0.1 m}
  - {name: winch, feed: bar/fuse 100 A -> winch, return: winch -> bank, wire: 4/0 AWG 0.1 m}
  - {name: horn, feed: bar/fuse 30 A -> horn, return: horn -> bank, wire: 4/0 AWG 0.1 m}
  - {name: inv, feed: bar/fuse 300 A -> inv, return: inv -> bank, wire: 4/0 AWG 0.1 m}
  - {name: kettle, ac: inv/breaker 15 A -> kettle, wire: 4/0 AWG 0.1 m}
  - {name: iron, ac: inv/breaker 15 A -> iron, wire: 4/0 AWG 0.1 m}
"""


@pytest.mark.parametrize(("count", "most"), [("count: 1", 1100 / 11.2), ("count: 2", 2200 / 11.2)])
def test_an_ac_load_counts_at_the_voltage_of_the_empty_bank(count, most):
    """1100 W at 11.2 V (2.8 V a cell, common practice) are 98 A, more than the winch; at the 120 V of the load 9 A.
    Of the two kettles together as much is on; another bank of a higher voltage changes nothing."""
    found = amps(MIXED.replace("COUNT", count))
    assert found["main"] == pytest.approx(5 + 400 / 0.9 / 11.2 + most, rel=2e-3)
    assert found["winch"] == pytest.approx(90) and found["horn"] == pytest.approx(20)


def test_a_state_without_momentary_loads_is_the_flow_itself():
    system, _ = read(TEXT.replace("hours: 0.1", "hours: 1").replace("hours: 0.05", "hours: 1"))
    one = Survey(system).study
    assert not one.momentary and all(each.result == each.every.result for each in one.solved)
    assert amps(TEXT.replace("hours: 0.1", "hours: 1").replace("hours: 0.05", "hours: 1"))["main"] == pytest.approx(115)


def test_loads_that_say_no_hours_are_not_momentary_and_only_loads_are():
    system, _ = read(TEXT.replace(", hours: 0.05", "") + "#")
    assert Survey(system).study.momentary == {"winch"}
    mixed, _ = read(MIXED.replace("COUNT", "count: 1"))
    assert Survey(mixed).study.momentary == {"winch", "horn", "kettle"}


THIN = TEXT.replace("wire: 2 AWG 2 m", "wire: 18 AWG 30 m").replace("current: 90 A", "power: 1500 W")


def test_where_all_together_cannot_be_carried_what_rests_says_the_flow():
    """The winch at the end of a thin wire takes more than it can have; without the momentary loads the fridge goes on."""
    system, _ = read(THIN)
    one = Survey(system).study
    assert one.solved and not any(each.every.flow for each in one.solved)
    assert amps(THIN)["fridge"] == pytest.approx(5) and amps(THIN)["main"] == pytest.approx(5)
    assert amps(THIN)["winch"] == pytest.approx(0, abs=1e-9)


def test_where_even_what_rests_cannot_be_carried_there_is_no_flow():
    text = THIN.replace("current: 5 A", "power: 9 kW").replace("wire: 12 AWG 2 m", "wire: 18 AWG 30 m")
    system, _ = read(text)
    one = Survey(system).study
    assert one.solved == () and all(each.result == each.every.result for each in one.low)  # told of all of them
    calm = text.replace("power: 1500 W", "power: 1 W")
    system, _ = read(calm)
    assert Survey(system).study.solved == ()


def test_charge_that_momentary_loads_use_up_counts_in_its_own_direction():
    """With the engine on, 60 A go into the bank; a winch of 90 A turns them round: the bank gives 35 A, with the
    fridge's 5, and the alternator's line keeps its own 60."""
    text = TEXT.replace("  bar:", "  alt: {kind: alternator, output: 60 A, self limiting: yes}\n  bar:") + (
        "  - {name: alt, feed: alt/fuse 100 A -> bar, return: alt -> bank, wire: 2/0 AWG 0.1 m}\n")
    system, problems = read(text)
    assert not problems
    engine = next(one for one in Survey(system).study.nominal if "engine" in one.state.name)
    wires = {one.circuit: one for one in system.conductors if one.side == "feed"}
    assert engine.amps(wires["alt"]) == pytest.approx(60, rel=0.01)
    assert abs(engine.amps(wires["main"])) == pytest.approx(90 + 5 - 60, rel=0.02)


def test_a_load_that_stays_on_is_no_momentary_one_however_large():
    text = TEXT.replace("current: 5 A", "current: 90 A").replace("current: 90 A, hours: 0.1", "current: 30 A, hours: 0.1")
    assert amps(text)["main"] == pytest.approx(90 + 30)


SHORE = """
nodes:
  quay: {kind: shore, rating: 30 A, voltage: 120 V}
  board: {kind: ac panel, rating: 30 A}
  kettle: {kind: ac load, power: 1200 W, hours: 0.2}
  dryer: {kind: ac load, power: 600 W, hours: 0.2}
  heater: {kind: ac load, power: 600 W, hours: 5}
circuits:
  - {name: quay, ac: quay/breaker 2-pole 30 A -> board, wire: 4/0 AWG 0.1 m}
  - {name: kettle, ac: board/breaker 15 A -> kettle, wire: 4/0 AWG 0.1 m}
  - {name: dryer, ac: board/breaker 15 A -> dryer, wire: 4/0 AWG 0.1 m}
  - {name: heater, ac: board/breaker 15 A -> heater, wire: 4/0 AWG 0.1 m}
"""


def test_without_a_bank_ac_loads_count_at_their_own_voltage():
    system, problems = read(SHORE)
    assert not problems
    loading = Survey(system).loading
    found = {one.circuit: loading.conductor(one).amps for one in system.conductors if one.core == "L"}
    share = found["heater"]  # a little above 5 A: the supply's own resistance
    assert 5 <= share < 5.5 and found["kettle"] == pytest.approx(2 * share, rel=0.02)
    assert found["quay"] == pytest.approx(share + found["kettle"], rel=0.02)
