"""What flows in the worst state: through conductors, devices, and into bars and joints."""

from __future__ import annotations

import pytest

from diagrammer.circuit.loading import NONE, SUN, when
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = """
bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, short circuit: 200 kA
bar: bar, rating: 300 A
fan: load, voltage: 12 V, current: 5 A
pump: load, voltage: 12 V, power: 112 W
alt: alternator, output: 60 A, self limiting: yes
sun: solar charger, type: mppt, max pv voltage: 50 V, output: 20 A
roof: pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A, imp: 9 A
rig: pv, power: 100 W, voc: 24 V, vmp: 20 V, isc: 4 A, imp: 3.6 A
"""
LINES = """
main: feed: bank/fuse 200 A -> bar, return: none, wire: 2/0 AWG 1 m
fan: feed: bar/fuse 10 A -> fan, return: fan -> bank, wire: 12 AWG 0.1 m
pump: feed: bar/fuse 15 A -> pump, return: pump -> bank, wire: 2/0 AWG 0.1 m
alt: feed: alt/fuse 100 A -> bar, return: alt -> bank, wire: 2 AWG 1 m
sun: feed: sun -> fuse 30 A/bar, return: sun -> bank, wire: 8 AWG 1 m
roof: feed: roof -> switch 2-pole 30 A -> sun.pv, wire: 10 AWG 3 m
rig: feed: rig -> roof, wire: 10 AWG 3 m
"""


def loading(nodes: str = NODES, lines: str = LINES, head: str = ""):
    one = system(netlist(nodes, lines, head=head))
    survey = Survey(one)
    return survey.loading, {wire.id: wire for wire in one.conductors}, survey


def test_a_conductor_has_its_worst_state_and_the_charge_in_which_it_is():
    """112 W at the empty bank's 11.2 V are 10 A, at its nominal 12.8 V 8.75 A (3.2 and 2.8 V a cell)."""
    found, wires, _ = loading()
    pump = found.conductor(wires["pump:f0"])
    assert pump.amps == pytest.approx(10, rel=1e-3) and pump.when == "parked, nothing charges, the banks low"
    assert found.usual("pump:f0").amps == pytest.approx(8.75, rel=1e-3)
    assert found.usual("pump:f0").when == "parked, nothing charges"
    fan = found.conductor(wires["fan:f0"])
    assert fan.amps == pytest.approx(5) and fan.when == "parked, nothing charges, the banks low"
    alternator = found.conductor(wires["alt:f0"])
    assert alternator.amps == pytest.approx(60, rel=0.01) and "engine running" in alternator.when


def test_currents_of_a_hair_more_are_the_same_and_the_first_state_stays():
    found, wires, survey = loading()
    (state,) = {found.conductor(wires[key]).when for key in ("fan:f0", "fan:r0")}
    assert state == when(survey.study.solved[0]) == "parked, nothing charges, the banks low"


def test_modules_drive_a_quarter_more_than_their_rated_current_in_bright_sun():
    """NEC 690.8(A)(1): 1.25 times the short-circuit current; both modules through what leads on."""
    found, wires, survey = loading()
    for key, amps in (("roof:f0", 14), ("roof:f1", 14), ("rig:f0", 4)):
        current = found.conductor(wires[key])
        assert (current.amps, current.when) == (pytest.approx(1.25 * amps), SUN), key
    switch = [key for key in survey.cleared.edges if "Q1" in key and "1" in key]
    assert max(found.inside(key).amps for key in switch) == pytest.approx(1.25 * 14)


def test_a_device_carries_what_its_conductors_carry():
    found, wires, survey = loading()
    fuse = next(f"inside {one.node} {number}" for number, one in enumerate(survey.system.insides)
                if one.node == survey.system.circuits[1].legs[0].stops[1].node)
    assert found.inside(fuse).amps == pytest.approx(found.conductor(wires["fan:f0"]).amps)
    assert found.inside("nothing") == NONE == found.usual("nothing") == found.into("nothing")


def test_what_comes_into_a_bar_leaves_it_again():
    """Parked all comes from the bank; with the engine and the sun what they give, some of it to the bank."""
    found, _, survey = loading()
    most = max(sum(abs(one.flow.amps.get(name, 0.0)) for name in ("alt", "sun")) for one in survey.study.solved)
    assert found.into("bar").amps == pytest.approx(most, rel=1e-6) and found.into("bar").when == "everything at once, the banks low"
    assert found.into("fan.+") == NONE and found.into("bank.+") == NONE


def test_a_bar_at_rest_and_usual():
    nodes = "\n".join(line for line in NODES.splitlines() if line.split(":")[0] in ("bank", "bar", "fan", "pump"))
    lines = "\n".join(line for line in LINES.splitlines() if line.split(":")[0] in ("main", "fan", "pump"))
    found, wires, _ = loading(nodes, lines)
    assert found.into("bar").amps == pytest.approx(15, rel=1e-3) and found.into("bar").when.endswith("low")
    assert found.usual("bar").amps == pytest.approx(13.75, rel=1e-3)
    assert found.usual("bar").when == "parked, nothing charges"


@pytest.mark.parametrize(("place", "counts"), [
    ("bar, rating: 100 A", True), ("panel, rating: 100 A", True), ("joint, rating: 100 A", True),
    ("load, voltage: 12 V, current: 1 A", False),
])
def test_where_many_land(place, counts):
    """A daisy chain over a bar, panel, joint, load: only the first three are rated for what passes."""
    nodes = f"""
bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah
mid: {place}
fan: load, voltage: 12 V, current: 5 A
pump: load, voltage: 12 V, current: 2 A
"""
    lines = """
fan: feed: bank/fuse 10 A -> mid -> fan, return: fan -> bank, wire: 12 AWG 1 m
pump: feed: mid -> pump, return: pump -> bank, wire: 12 AWG 1 m
"""
    if not counts:
        lines += "mid: return: mid -> bank, wire: 12 AWG 1 m\n"
    found, _, survey = loading(nodes, lines)
    mid = next(name for name in ("mid", "mid.+") if name in survey.system.terminals)
    assert found.into(mid).amps == pytest.approx(7 if counts else 0)
    assert found.into(mid.replace("+", "-") if "+" in mid else "fan.+").amps == pytest.approx(0)


def test_an_ac_panel_gathers_what_its_lines_take_and_earth_carries_nothing():
    nodes = """
quay: shore, rating: 30 A, voltage: 120 V
board: ac panel, rating: 30 A
kettle: ac load, power: 600 W
iron: ac load, power: 1200 W
"""
    lines = """
quay: ac: quay/breaker 2-pole 30 A -> board, wire: 2/0 AWG 0.1 m
kettle: ac: board/breaker 10 A -> kettle, wire: 2/0 AWG 0.1 m
iron: ac: board/breaker 15 A -> iron, wire: 2/0 AWG 0.1 m
"""
    found, wires, _ = loading(nodes, lines)
    assert found.into("board.L").amps == pytest.approx(15, rel=0.1) 
    assert found.into("board.N").amps == pytest.approx(found.into("board.L").amps)
    assert found.into("board.earth") == NONE
    cores = {wire.core: found.conductor(wire).amps for wire in wires.values() if wire.circuit == "iron"}
    assert cores["L"] == pytest.approx(10, rel=0.1) and cores["N"] == pytest.approx(cores["L"]) and cores["earth"] == 0


def test_named_states_are_told_by_their_names():
    found, wires, _ = loading(head="states: {cooking: {fan: off}, asleep: {pump: off, fan: on}}")
    assert found.conductor(wires["fan:f0"]).when == "asleep, the banks low"
    assert found.usual("fan:f0").when == "asleep" and found.usual("pump:f0").when == "cooking"


TURBINE = """
bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah
mill: wind, power: 400 W, voltage: 12 V, output: 30 A, phases: 3
keep: wind charger, output: 40 A, phases: 3
"""
BLOWN = """
mill: ac: mill -> keep.in, wire: 6 AWG 5 m
keep: feed: keep -> fuse 60 A/bank, wire: 6 AWG 2 m
"""


def test_the_lines_of_a_turbine_carry_what_it_gives():
    found, wires, _ = loading(TURBINE, BLOWN)
    cores = {wire.core: found.conductor(wire).amps for wire in wires.values() if wire.circuit == "mill"}
    assert cores == {"L1": 30, "L2": 30, "L3": 30, "earth": 0}


def test_two_ways_from_the_modules_carry_all_of_it_each():
    """Where the loss of one parts nothing, all may go that way."""
    found, wires, _ = loading(lines=LINES + "way: feed: roof -> sun.pv, return: roof -> sun.pv, wire: 10 AWG 3 m\n")
    assert found.conductor(wires["way:f0"]).amps == found.conductor(wires["roof:f0"]).amps == pytest.approx(1.25 * 14)


def test_the_first_of_several_states_alike_is_told_and_one_of_more_current():
    head = "states: {some: {pump: off, fan: on}, none: {pump: off, fan: off}, both: {pump: off, fan: on, alarm: on}}"
    nodes = NODES + "alarm: load, voltage: 12 V, current: 2 A\n"
    lines = LINES + "alarm: feed: bar/fuse 5 A -> alarm, return: alarm -> bank, wire: 2/0 AWG 0.1 m\n"
    found, wires, _ = loading(nodes, lines, head.replace("some: {", "some: {alarm: off, "))
    assert (found.usual("fan:f0").amps, found.usual("fan:f0").when) == (pytest.approx(5), "some")
    main = found.usual("main:f0")
    assert (main.amps, main.when) == (pytest.approx(7), "both")
    assert (found.usual("bar").amps, found.usual("bar").when) == (pytest.approx(7), "both")
    idle = found.conductor(wires["pump:f0"])
    assert (idle.amps, idle.when) == (pytest.approx(0, abs=1e-9), "some, the banks low")


def test_nothing_flows_into_a_bar_at_which_nothing_draws():
    nodes = "\n".join(line for line in NODES.splitlines() if line.split(":")[0] in ("bank", "bar", "fan"))
    lines = "\n".join(line for line in LINES.splitlines() if line.split(":")[0] in ("main", "fan"))
    found, wires, _ = loading(nodes, lines, "states: {asleep: {fan: off}}")
    assert found.into("bar") == NONE and found.conductor(wires["main:f0"]).amps == 0


def test_small_currents_land_too():
    nodes = NODES.replace("fan: load, voltage: 12 V, current: 5 A", "fan: load, voltage: 12 V, current: 0.5 A")
    found, _, _ = loading(nodes, LINES, "states: {here: {pump: on}}")
    assert found.usual("bar").amps == pytest.approx(0.5 + 8.75, rel=1e-3)


def test_what_cannot_be_carried_has_no_usual_current():
    nodes = NODES.replace("pump: load, voltage: 12 V, power: 112 W", "pump: load, voltage: 12 V, power: 30 kW")
    found, wires, survey = loading(nodes, LINES.replace("2/0 AWG 0.1 m", "18 AWG 9 m"))
    assert not any(one.flow for one in survey.study.nominal)
    assert found.usual("main:f0") == NONE == found.usual("bar") == found.into("bar")


def test_modules_whose_line_leads_to_no_charger_still_drive_their_current():
    nodes = NODES + "tail: bar, rating: 30 A\nlone: pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A\n"
    found, wires, _ = loading(nodes, LINES + "lone: feed: lone -> tail, return: none, wire: 10 AWG 1 m\n")
    assert (found.conductor(wires["lone:f0"]).amps, found.conductor(wires["lone:f0"]).when) == (12.5, SUN)
