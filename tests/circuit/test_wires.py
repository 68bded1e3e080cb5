"""States in which the same devices are closed share what conducts."""

from __future__ import annotations

from dataclasses import replace

import pytest

from diagrammer.circuit.faults import COLD
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from diagrammer.circuit.study import study
from diagrammer.electrics.conductor import resistance
from diagrammer.netlist.read import read
from diagrammer.quantity import awg
from tests.circuit.cases import netlist
from tests.circuit.cases import system as short

TEXT = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 4 kA}
  spare: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, short circuit: 2 kA}
  which: {kind: selector, rating: 200 A}
  bar: {kind: bar, rating: 200 A}
  lamp: {kind: load, voltage: 12 V, power: 60 W}
  alternator: {kind: alternator, output: 60 A}
circuits:
  - {feed: bank/fuse 100 A -> which.1, wire: 2 AWG 1 m}
  - {feed: spare/fuse 100 A -> which.2, return: spare -> bank, wire: 2 AWG 1 m}
  - {feed: which -> bar, return: none, wire: 2 AWG 1 m}
  - {feed: alternator -> bar, return: alternator -> bank, wire: 4 AWG 1 m}
  - {name: lamp, feed: bar -> switch Q1 10 A -> lamp, return: lamp -> bank, wire: [14 AWG 1 m, 1 m]}
"""


def system():
    found, problems = read(TEXT)
    assert not problems, problems
    return found


def test_states_that_differ_in_what_runs_share_their_wires():
    one = system()
    parked, engine = states(one)
    assert parked.running != engine.running
    assert Operation(one, parked, "low").wires is Operation(one, engine).wires
    assert len({id(operation.wires) for operation in (*study(one).low, *study(one).nominal)}) == 1


def test_parts_may_stand_wherever_something_is_not_merely_passed_through():
    """Neither on a breaker's terminals nor on earth."""
    mains = short(netlist("quay: shore, rating: 16 A\nheater: ac load, power: 1 kW",
                          "heater: ac: quay/breaker 2-pole 16 A -> heater, wire: 2.5 mm² 2 m"))
    assert Operation(mains, states(mains)[0]).wires.wiring.ends == {"quay.L", "quay.N", "heater.L", "heater.N"}


def test_a_resistor_has_what_it_states():
    one = short(netlist("bank: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah\n"
                        "lamp: load, voltage: 12 V, current: 1 A",
                        "lamp: feed: bank/fuse 5 A -> resistor 2.5 ohm -> lamp, wire: [2.5 mm² 1 m, 1 m]"))
    ohms = {branch.name.split()[1]: branch.ohms for branch in Operation(one, states(one)[0]).network.branches
            if branch.name.startswith("inside")}
    assert sorted(ohms.values()) == [0, 2.5]


def test_a_position_a_switch_and_a_temperature_make_others():
    one, state = system(), states(system())[0]
    here = Operation(one, state).wires
    assert Operation(one, state, temperature=COLD).wires is not here
    assert Operation(one, replace(state, off=frozenset(("Q1",)))).wires is not here
    others = [Operation(one, State("", frozenset(), {"which": word})) for word in ("1", "2", "both", "off")]
    assert len({other.wires.branches for other in others}) == 4
    dead = [bool(other.flow.dead) for other in others]
    assert dead == [False, False, False, True]


def test_what_is_reached_stops_at_an_open_device():
    one, state = system(), states(system())[0]
    assert "lamp.+" in Operation(one, state).wires.reach(("bar",))
    assert "lamp.+" not in Operation(one, replace(state, off=frozenset(("Q1",)))).wires.reach(("bar",))
    assert Operation(one, state).wires.reach(("nothing",)) == {"nothing"}


def branches(nodes: str, lines: str, state: State | None = None, head: str = "") -> dict[str, float]:
    """{branch: ohms} of a state, the first one of the system unless one is given."""
    one = short(netlist(nodes, lines, head=head))
    return {branch.name: branch.ohms for branch in Operation(one, state or states(one)[0], temperature=20.0).wires.branches}


BANK = "bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, pair: back\nback: bar, rating: 100 A\n"


def test_what_a_wire_resists_by_its_length_size_and_number():
    """IEC 60228: 10 AWG, 5.26 mm², copper 0.017241 Ω mm²/m at 20 °C, some 2 % more where it is stranded."""
    nodes = BANK + "".join(f"fan{n}: load, voltage: 12 V, current: 1 A\n" for n in range(4))
    lines = """
one: feed: bank/fuse 10 A -> fan0, wire: 10 AWG 4 m
two: feed: bank/fuse 10 A -> fan1, wire: 2 parallel 10 AWG 4 m
bare: feed: bank/fuse 10 A -> fan2, wire: 4 m
soft: feed: bank/fuse 10 A -> fan3, wire: {size: 10 AWG, length: 4 m, material: aluminium}
"""
    found = branches(nodes, lines)
    assert found["one:f0"] == pytest.approx(0.017241 * 4 / 5.261, rel=0.03)
    assert found["two:f0"] == pytest.approx(found["one:f0"] / 2) and found["bare:f0"] == 0
    assert found["soft:f0"] == pytest.approx(resistance(awg(10), 4.0, 20.0, material="aluminium"))
    assert {ohms for name, ohms in found.items() if name.startswith(("inside F", "joint"))} == {0}


@pytest.mark.parametrize(("fields", "ohms"), [
    ("rating: 500 A", 0.05 / 500), ("rating: 100 A", 0.05 / 100), ("rating: 500 A, resistance: 0.25 mΩ", 0.25e-3)])
def test_a_shunt_resists_what_it_says_or_else_50_mV_at_its_rating(fields, ohms):
    """Common practice."""
    nodes = BANK + f"meter: shunt, {fields}\nfan: load, voltage: 12 V, current: 1 A"
    found = branches(nodes, "fan: feed: bank/fuse 10 A -> fan, return: bank -> meter -> fan, wire: {feed: 10 AWG 1 m, "
                            "return: [10 AWG 1 m, 1 m]}")
    assert next(value for name, value in found.items() if name.startswith("inside meter")) == pytest.approx(ohms)


def test_earth_bonds_and_a_galvanic_isolator_conduct_nothing():
    nodes = BANK + """
box: inverter, power: 1 kW, neutral: bonded
kettle: ac load, power: 500 W
quay: shore, rating: 15 A
mains: ac charger, output: 10 A
earth: earth
hull: chassis
"""
    lines = """
box: feed: bank/fuse 100 A -> box, wire: 2 AWG 1 m
kettle: ac: box/breaker 15 A -> kettle, wire: 14 AWG 1 m
quay: ac: quay/breaker 2-pole 15 A -> plug 16 A -> galvanic-isolator 30 A -> mains, wire: [14 AWG 1 m, 1 m, 1 m]
mains: feed: mains -> fuse 20 A/bank, wire: 12 AWG 1 m
case: bond: box -> earth, wire: 10 AWG 1 m
minus: bond: back/hull
own: bond: hull -> earth, wire: 10 AWG 1 m
"""
    one = short(netlist(nodes, lines))
    found = {branch.name for branch in Operation(one, states(one)[0]).wires.branches}
    earth = {wire.id for wire in one.conductors if wire.side == "earth"}
    assert {wire.circuit for wire in one.conductors if wire.side == "earth"} == {"kettle", "quay", "case", "own"}
    assert not earth & found and found >= {wire.id for wire in one.conductors if wire.side != "earth"}
    forms = {f"inside {inside.node} {number}": inside.form for number, inside in enumerate(one.insides)}
    assert set(forms.values()) == {"bond", "capacitor", "overcurrent", "contact"}
    assert {forms[name] for name in found if name in forms} == {"overcurrent", "contact"}
    sides = {f"inside {inside.node} {number}": inside.side for number, inside in enumerate(one.insides)}
    assert "earth" in sides.values() and {sides[name] for name in found if name in sides} == {"feed", "ac"}
    joints = {f"joint {number}": joint.side for number, joint in enumerate(one.joints)}
    assert "earth" in joints.values() and {joints[name] for name in found if name in joints} == {"feed", "ac"}


@pytest.mark.parametrize(("running", "closed"), [
    ((), False), (("roof",), False), (("alt",), True), (("quay",), True), (("roof", "alt"), True)])
def test_an_isolator_joins_banks_while_an_engine_or_the_mains_charge(running, closed):
    nodes = BANK + """
other: bank, chemistry: agm, voltage: 12 V, capacity: 80 Ah, pair: back
isolator: isolator, rating: 100 A
alt: alternator, output: 60 A
quay: shore, rating: 15 A
mains: ac charger, output: 10 A
roof: pv, power: 100 W, voc: 22 V, isc: 6 A
sun: solar charger, type: mppt, max pv voltage: 50 V, output: 10 A
"""
    lines = """
tie: feed: bank/fuse 100 A -> isolator -> fuse 100 A/other, return: none, wire: [4 AWG 1 m, 1 m]
minus: return: bank -> back, wire: 4 AWG 1 m
minus2: return: other -> back, wire: 4 AWG 1 m
alt: feed: alt -> other, return: alt -> back, wire: 4 AWG 1 m
quay: ac: quay/breaker 2-pole 15 A -> mains, wire: 14 AWG 1 m
mains: feed: mains -> fuse 20 A/bank, wire: 12 AWG 1 m
roof: feed: roof -> sun.pv, wire: 12 AWG 1 m
sun: feed: sun -> fuse 20 A/bank, wire: 12 AWG 1 m
"""
    found = branches(nodes, lines, State("so", frozenset(running)))
    assert any(name.startswith("inside isolator") for name in found) is closed


@pytest.mark.parametrize(("device", "positions", "off", "closed"), [
    ("switch", {}, False, True), ("switch", {}, True, False), ("switch", {"Q9": "on"}, False, True),
    ("switch, open: yes", {}, False, False), ("switch, open: yes", {"Q9": "on"}, False, True),
    ("switch, open: yes", {"Q9": "on"}, True, False), ("relay, coil: 12 V, open: yes", {}, False, True),
    ("galvanic-isolator", {}, False, False), ("relay, coil: 12 V", {}, True, False), ("breaker", {}, False, True), ("breaker", {}, True, False),
])
def test_devices_are_closed_but_for_those_off_and_switches_that_rest_open(device, positions, off, closed):
    nodes = BANK + f"Q9: {device}, rating: 20 A\nfan: load, voltage: 12 V, current: 1 A"
    lines = "fan: feed: bank/fuse 10 A -> Q9.1 -> fan, wire: 12 AWG 1 m"
    state = State("so", frozenset(), positions, frozenset(("Q9",) if off else ()))
    found = branches(nodes, lines, state)
    assert any(name.startswith("inside Q9") for name in found) is closed


def test_what_is_reached_is_on_the_feed_side_and_ac_and_not_through_a_converter():
    """Also where a converter joins its plus sides inside."""
    nodes = BANK + """
down: converter, voltage: 12 V, output: 10 A, input voltage: 12 V, common: positive
fan: load, voltage: 12 V, current: 1 A
box: inverter, power: 1 kW, neutral: bonded
kettle: ac load, power: 500 W
"""
    lines = """
down: feed: bank/fuse 10 A -> down.in, return: down.in -> back, wire: 12 AWG 1 m
fan: feed: down/fuse 5 A -> fan, wire: 14 AWG 1 m
box: feed: bank/fuse 100 A -> box, wire: 2 AWG 1 m
kettle: ac: box/breaker 15 A -> kettle, wire: 14 AWG 1 m
"""
    one = short(netlist(nodes, lines))
    reach = Operation(one, states(one)[0]).wires.reach
    assert "down.in.+" in reach(("bank.+",)) and not {"down.+", "fan.+"} & reach(("bank.+",))
    assert "kettle.L" in reach(("box.out.L",)) and "kettle.N" not in reach(("box.out.L",))
    assert "kettle.N" in reach(("box.out.N",)) and reach(("back",)) == {"back"}
    assert reach(("kettle.earth",)) == {"kettle.earth"}
