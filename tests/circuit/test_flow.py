"""Power flow of whole systems, against sums done by hand."""

from __future__ import annotations

import math

import pytest

from diagrammer.circuit.batteries import batteries, charge_voltage
from diagrammer.circuit.flow import HOT, Operation
from diagrammer.circuit.states import State, states
from diagrammer.electrics.conductor import resistance
from diagrammer.netlist.read import read
from diagrammer.quantity import awg

BANK = "bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 4 kA}"


def system(nodes: str, circuits: str, head: str = ""):
    found, problems = read(f"{head}\nnodes:\n" + "".join(f"  {n.strip()}\n" for n in nodes.strip().splitlines())
                           + "circuits:\n" + "".join(f"  - {c.strip()}\n" for c in circuits.strip().splitlines()))
    assert not problems, problems
    return found


def test_one_load_is_the_closed_form():
    one = system(f"{BANK}\nlamp: {{kind: load, voltage: 12 V, power: 100 W}}", "{feed: bank/fuse 20 A -> lamp, wire: 12 AWG 5 m}")
    at_rest = Operation(one, states(one)[0])
    ohms = 12.8 / 4000 + 2 * resistance(awg(12), 5, HOT)
    volts = (12.8 + math.sqrt(12.8**2 - 4 * ohms * 100)) / 2  # P = V (E - V) / R
    assert at_rest.volts("lamp.+", "lamp.-") == pytest.approx(volts, rel=1e-9)
    assert at_rest.amps(one.conductors[0]) == pytest.approx(100 / volts, rel=1e-9)


def test_what_cannot_be_carried_collapses_and_names_the_load():
    one = system(f"{BANK}\nheater: {{kind: load, voltage: 12 V, power: 5 kW}}", "{feed: bank/fuse 20 A -> heater, wire: 18 AWG 20 m}")
    collapse = Operation(one, states(one)[0]).result
    assert collapse.load == "heater" and 0 < collapse.share < 1


def test_an_inverter_draws_what_its_ac_loads_take_over_its_efficiency():
    one = system(
        f"{BANK}\ninv: {{kind: inverter, power: 1 kW, neutral: bonded, efficiency: 90 %}}\nkettle: {{kind: ac load, power: 800 W}}",
        "{feed: bank/fuse 150 A -> inv, wire: 2/0 AWG 1 m}\n{ac: inv -> kettle, wire: 12 AWG 2 m}",
    )
    flow = Operation(one, states(one)[0])
    amps, volts = flow.amps(one.conductors[0]), flow.volts("inv.+", "inv.-")
    out = flow.flow.amps["inv L"] * flow.volts("inv.out.L", "inv.out.N")
    assert out > 800
    assert amps * volts == pytest.approx(out / 0.9, rel=0.01)


def test_a_stack_of_batteries_is_charged_at_the_sum_of_its_voltages():
    one = system(
        "b1: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\n"
        "b2: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}\nbar: {kind: bar, rating: 100 A}",
        "{series: b1 -> b2, wire: 2 AWG 0.3 m}\n{feed: b2/fuse 100 A -> bar, return: none, wire: 2 AWG 1 m}",
    )
    assert charge_voltage(one, "bar") == pytest.approx(2 * batteries(one)["b1"].window.absorption)


def test_the_sensible_states_follow_from_the_sources():
    one = system(
        f"{BANK}\nalt: {{kind: alternator, output: 60 A}}\nsun: {{kind: solar charger, type: mppt, output: 20 A, max pv voltage: 100 V}}\n"
        "roof: {kind: pv, power: 200 W, voc: 24 V, isc: 10 A}",
        "{feed: alt -> bank, wire: 4 AWG 1 m}\n{feed: roof -> sun.pv, wire: 10 AWG 5 m}\n{feed: sun/fuse 30 A -> bank, wire: 8 AWG 1 m}",
    )
    assert [state.name for state in states(one)] == ["parked, nothing charges", "engine running", "full sun and wind", "everything at once"]
    sun = Operation(one, states(one)[2])
    assert 0 < sun.flow.amps["sun"] <= 20
    assert Operation(one, states(one)[0]).flow.amps.get("sun", 0) == 0


def test_named_states_take_the_place_of_the_derived_ones():
    one = system(f"{BANK}\nlamp: {{kind: load, voltage: 12 V, power: 10 W}}", "{feed: bank/fuse 5 A -> lamp, wire: 14 AWG 1 m}",
                 "states: {asleep: {lamp: off}}")
    (asleep,) = states(one)
    assert asleep == State("asleep", frozenset(), {}, frozenset({"lamp"}))
    assert Operation(one, asleep).amps(one.conductors[0]) == pytest.approx(0, abs=1e-9)


def test_ac_charger_on_shore_feeds_the_bank():
    one = system(
        f"{BANK}\ninlet: {{kind: shore, rating: 16 A, voltage: 230 V}}\nmains: {{kind: ac charger, output: 20 A}}",
        "{ac: inlet -> breaker 2-pole 16 A -> mains, wire: [2.5 mm² 1 m, 1 m]}\n{feed: mains -> fuse 30 A/bank, wire: 6 mm² 1 m}",
        "practice: iso",
    )
    on_shore = Operation(one, states(one)[1])
    assert on_shore.flow.amps["bank"] == pytest.approx(-20, abs=0.2)
    assert abs(on_shore.flow.imbalance) < 1e-6
