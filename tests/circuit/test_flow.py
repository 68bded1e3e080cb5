"""Power flow of whole systems, against sums done by hand."""

from __future__ import annotations

import math

import pytest

from diagrammer.circuit.batteries import batteries, charge_voltage
from diagrammer.circuit.flow import HOT, Operation
from diagrammer.circuit.givers import pv_array
from diagrammer.circuit.states import State, states
from diagrammer.electrics import solar
from diagrammer.electrics.conductor import resistance
from diagrammer.electrics.flow import imbalance
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
    assert [state.name for state in states(one)] == ["parked, nothing charges", "engine running", "full sun", "everything at once"]
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
    assert abs(imbalance(on_shore.network, on_shore.flow)) < 1e-6


def test_a_resistor_and_a_shunt_lose_what_their_resistance_takes():
    one = system(f"{BANK}\nmeter: {{kind: shunt, rating: 100 A}}\nlamp: {{kind: load, voltage: 12 V, current: 2 A}}",
                 "{feed: bank/fuse 10 A -> resistor R-damp 1.5 Ω -> lamp, return: bank -> meter -> lamp, "
                 "wire: [12 AWG 1 m, 1 m]}")
    flow = Operation(one, states(one)[0])
    damp = next(inside for inside in one.insides if inside.form == "resistor")
    assert abs(flow.volts(damp.a, damp.b)) == pytest.approx(1.5 * 2)
    shunt = next(inside for inside in one.insides if inside.form == "shunt")
    assert abs(flow.volts(shunt.a, shunt.b)) == pytest.approx(0.05 * 2 / 100)  # 50 mV at its rating, common practice


@pytest.mark.parametrize(("count", "kettles"), [("", 1), (", count: 2", 2)])
def test_an_inverter_charger_makes_ac_where_nothing_comes_from_outside(count, kettles):
    one = system(
        f"{BANK}\ncombi: {{kind: inverter charger, power: 2 kW, charge: 40 A, efficiency: 90 %}}\n"
        f"kettle: {{kind: ac load, power: 400 W{count}}}",
        "{feed: bank/fuse 250 A -> combi, wire: 4/0 AWG 1 m}\n{ac: combi -> kettle, wire: 12 AWG 2 m}")
    flow = Operation(one, states(one)[0])
    watts = flow.amps(one.conductors[0]) * flow.volts("combi.+", "combi.-")
    assert watts == pytest.approx(kettles * 400 / 0.9, rel=0.01)


def test_an_inverter_gives_up_below_its_window():
    """What it may draw at least is in the network; without a window it draws at any voltage."""
    text = ("inv: {{kind: inverter, power: 1 kW, neutral: bonded{}}}\nkettle: {{kind: ac load, power: 800 W}}",
            "{feed: bank/fuse 150 A -> inv, wire: 2/0 AWG 1 m}\n{ac: inv -> kettle, wire: 12 AWG 2 m}")
    for window, least in (("", 0.0), (", input window: 11 .. 15 V", 11.0)):
        one = system(f"{BANK}\n{text[0].format(window)}", text[1])
        (converter,) = Operation(one, states(one)[0]).network.converters
        assert converter.least == least


@pytest.mark.parametrize(("running", "amps"), [("on", 30), ("off", 0)])
def test_a_charger_from_the_engine_s_battery_works_while_its_alternator_runs(running, amps):
    one = system(
        f"{BANK}\nengine: {{kind: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 80 Ah}}\n"
        "alt: {kind: alternator, output: 90 A}\ndcc: {kind: dc charger, voltage: 12 V, output: 30 A}\n"
        "lamp: {kind: load, voltage: 12 V, power: 1 W}\nroof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A}\n"
        "sun: {kind: solar charger, type: mppt, max pv voltage: 50 V, output: 10 A}",
        "{feed: alt -> engine, wire: 4 AWG 1 m}\n{feed: engine/fuse 50 A -> dcc.in, wire: 6 AWG 1 m}\n"
        "{feed: dcc -> fuse 40 A/bank, wire: 8 AWG 1 m}\n{feed: bank/fuse 5 A -> lamp, wire: 14 AWG 1 m}\n"
        "{feed: roof -> sun.pv, wire: 12 AWG 1 m}\n{feed: sun -> fuse 15 A/bank, wire: 10 AWG 1 m}",
        f"states: {{now: {{alt: {running}, roof: on}}}}")
    flow = Operation(one, states(one)[0]).flow
    assert flow.amps.get("dcc", 0.0) == pytest.approx(amps, abs=0.1)


@pytest.mark.parametrize(("said", "vmp", "imp"), [("", 18.04, 5.64), (", vmp: 18.5 V, imp: 5.4 A", 18.5, 5.4)])
def test_what_a_module_s_data_sheet_leaves_out_is_the_usual_share(said, vmp, imp):
    """82 % of the open voltage and 94 % of the short-circuit current (common practice)."""
    one = system(f"{BANK}\nroof: {{kind: pv, power: 100 W, voc: 22 V, isc: 6 A{said}}}\n"
                 "sun: {kind: solar charger, type: mppt, max pv voltage: 50 V, output: 10 A}",
                 "{feed: roof -> sun.pv, wire: 12 AWG 1 m}\n{feed: sun -> fuse 15 A/bank, wire: 10 AWG 1 m}")
    usual = pv_array(one.nodes["roof"])
    stated = solar.array(22, vmp, 6, imp, 1, 1, cell=25.0, voc_share=0.0, vmp_share=0.0)
    assert usual == stated


def test_a_charger_of_two_lines_takes_as_much_from_each():
    """60 A at some 27 V through 90 % are 1.8 kW: 7.5 A in each of two lines of 120 V."""
    one = system(
        "bank: {kind: bank, chemistry: lifepo4, voltage: 25.6 V, capacity: 300 Ah, short circuit: 8 kA}\n"
        "combi: {kind: inverter charger, power: 3 kW, charge: 60 A, phases: 2+N}\n"
        "genset: {kind: generator, power: 7 kW, phases: 2+N, neutral: bonded}",
        "{feed: bank/fuse 200 A -> combi, wire: 2/0 AWG 1 m}\n{ac: genset/breaker 2-pole 30 A -> combi.in, wire: 10 AWG 3 m}",
    )
    flow = Operation(one, next(state for state in states(one) if "generator" in state.name)).flow
    lines = [flow.amps[f"genset {name}"] for name in ("L1", "L2")]
    assert lines[0] == pytest.approx(lines[1], rel=1e-6)
    given = -flow.amps["bank"] * (flow.volts["combi.+"] - flow.volts["combi.-"])
    assert -flow.amps["bank"] == pytest.approx(60, rel=1e-3) and sum(lines) * 120 * 0.9 == pytest.approx(given, rel=0.03)


def test_a_transfer_stands_at_the_inverter_where_nothing_else_runs():
    one = system(
        "bank: {kind: bank, chemistry: lifepo4, voltage: 25.6 V, capacity: 300 Ah, short circuit: 8 kA}\n"
        "inverter: {kind: inverter, power: 3 kW, neutral: bonded}\n"
        "quay: {kind: shore, rating: 16 A}\n"
        "pick: {kind: transfer, rating: 30 A}\n"
        "kettle: {kind: ac load, power: 1 kW}",
        "{feed: bank/fuse 200 A -> inverter, wire: 2/0 AWG 1 m}\n"
        "{ac: quay/breaker 2-pole 15 A -> pick.1, wire: 12 AWG 3 m}\n"
        "{ac: inverter/breaker 2-pole 20 A -> pick.2, wire: 12 AWG 3 m}\n"
        "{ac: pick.common/breaker 15 A -> kettle, wire: 14 AWG 3 m}",
    )
    at = {state.name: state.positions["pick"] for state in states(one)}
    assert at == {"parked, nothing charges": "2", "on shore power": "1"}
    parked = Operation(one, states(one)[0])
    assert parked.flow.amps["bank"] == pytest.approx(1000 / 0.9 / 25.6, rel=0.05)


def test_what_flows_inside_a_node_is_the_largest_of_its_contacts():
    one = system(f"{BANK}\nlamp: {{kind: load, voltage: 12 V, current: 3 A}}\nfan: {{kind: load, voltage: 12 V, current: 5 A}}\n"
                 "Q9: {kind: switch, rating: 20 A, contacts: 2}\nspare: {kind: switch, rating: 5 A, open: yes}",
                 "{feed: bank/fuse 10 A -> Q9.1 -> fan, wire: [12 AWG 1 m, 1 m]}\n"
                 "{feed: bank/fuse 10 A -> Q9.3 -> lamp, wire: [12 AWG 1 m, 1 m]}\n"
                 "{feed: bank -> spare -> lamp, return: none, wire: 12 AWG 1 m}\n{bond: lamp -> bank.-, wire: 12 AWG 1 m}")
    flow = Operation(one, states(one)[0])
    assert flow.through["Q9"] == pytest.approx(5) and flow.through["spare"] == 0
    assert flow.through["F1"] == pytest.approx(5) and flow.through["F2"] == pytest.approx(3)
    dead = next(wire for wire in one.conductors if wire.a == "spare.2" or wire.b == "spare.2")
    assert flow.amps(dead) == 0 == flow.amps(next(wire for wire in one.conductors if wire.side == "earth"))


def test_no_voltage_where_nothing_lands_on_one_terminal():
    one = system(f"{BANK}\nlamp: {{kind: load, voltage: 12 V, current: 3 A}}", "{feed: bank/fuse 10 A -> lamp, wire: 12 AWG 1 m}")
    flow = Operation(one, states(one)[0])
    assert flow.volts("bank.+", "bank.-") == pytest.approx(12.8, abs=0.1)
    assert flow.volts("bank.earth", "bank.-") is None is flow.volts("bank.+", "lamp.earth")


def test_where_something_is_given_or_taken():
    one = system(f"{BANK}\nbar: {{kind: bar, rating: 50 A}}\nmeter: {{kind: shunt, rating: 100 A}}\nlamp: {{kind: load, voltage: 12 V, current: 3 A}}",
                 "{feed: bank/fuse 10 A -> bar, return: none, wire: 12 AWG 1 m}\n"
                 "{feed: bar/fuse 5 A -> lamp, return: bank -> meter -> lamp, wire: {feed: 12 AWG 1 m, return: [12 AWG 1 m, 1 m]}}")
    assert [node.name for node in Operation(one, states(one)[0]).ends] == ["bank", "bar", "lamp"]


@pytest.mark.parametrize("inverts", [False, True])
@pytest.mark.parametrize("line", ["L1", "L2"])
def test_each_of_two_lines_carries_its_own_loads(line, inverts):
    """Behind a supply of two lines in opposition, and behind an inverter of two: 600 W at 120 V, 5 A."""
    supply = ("box: {kind: generator, power: 7 kW, phases: 2+N, neutral: bonded}" if not inverts else
              "bank: {kind: bank, chemistry: lifepo4, voltage: 25.6 V, capacity: 300 Ah, short circuit: 8 kA}\n"
              "box: {kind: inverter, power: 3 kW, phases: 2+N, neutral: bonded}")
    feed = "{feed: bank/fuse 200 A -> box, wire: 2/0 AWG 1 m}\n" if inverts else ""
    one = system(
        f"{supply}\npanel: {{kind: ac panel, rating: 50 A, phases: 2+N}}\nheater: {{kind: ac load, power: 600 W}}\n"
        "charger: {kind: ac charger, output: 20 A}\n"
        "house: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 3 kA}",
        f"{feed}{{ac: box/breaker 2-pole 30 A -> panel, wire: 10 AWG 1 m}}\n"
        f"{{ac: panel.{line}/breaker 15 A -> heater, wire: 12 AWG 1 m}}\n"
        f"{{ac: panel.{line}/breaker 15 A -> charger, wire: 12 AWG 1 m}}\n{{feed: charger -> fuse 30 A/house, wire: 8 AWG 1 m}}",
    )
    running = frozenset() if inverts else frozenset(("box",))
    flow = Operation(one, next(state for state in states(one) if state.running == running)).flow
    assert flow.amps["heater L"] == pytest.approx(5, rel=0.02) and "heater L" not in flow.dead
    assert flow.amps["charger charging"] == pytest.approx(20, rel=0.02)
    assert abs(flow.amps[f"box to panel:a0.{line}"]) == pytest.approx(5 + 20 * 13.5 / 0.9 / 120, rel=0.1)
    assert flow.amps[f"box to panel:a0.{'L2' if line == 'L1' else 'L1'}"] == pytest.approx(0, abs=1e-6)
