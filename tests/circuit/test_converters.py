"""What converters, chargers, inverters and transformers are to the network of a state."""

from __future__ import annotations

import pytest

from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from tests.circuit.cases import netlist, system

BANK = "bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah"
TWO = f"house: {BANK}\nstart: battery, chemistry: agm, voltage: 12 V, capacity: 80 Ah, duty: starter"


def operation(nodes: str, circuits: str, state: State | str = "") -> Operation:
    one = system(netlist(nodes, circuits))
    found = {each.name: each for each in states(one)}
    return Operation(one, state if isinstance(state, State) else found[state or next(iter(found))])


def converters(nodes: str, circuits: str, state: State | str = ""):
    """The converters of the network, by name."""
    return {each.name: each for each in operation(nodes, circuits, state).network.converters}


LINE = "step: feed: house/fuse 30 A -> step.in, wire: 8 AWG 1 m"


@pytest.mark.parametrize(("fields", "efficiency", "least"), [
    ("", 0.9, 0.0), (", efficiency: 95 %", 0.95, 0.0), (", input voltage: 12 V", 0.9, 0.0),
    (", input voltage: 9 .. 32 V", 0.9, 9.0),
])
def test_a_converter(fields, efficiency, least):
    """Nine tenths where no efficiency is given: common practice. Only a window says what input it needs at least."""
    one = converters(f"house: {BANK}\nstep: converter, voltage: 24 V, output: 10 A{fields}", LINE)["step"]
    assert (one.from_plus, one.from_minus, one.plus, one.minus) == ("step.in.+", "step.in.-", "step.+", "step.-")
    assert (one.volts, one.amps, one.efficiency, one.least) == (24.0, 10.0, pytest.approx(efficiency), least)


@pytest.mark.parametrize(("fields", "efficiency", "least"), [
    ("", 0.9, 0.0), (", efficiency: 92 %", 0.92, 0.0), (", input window: 11 .. 16 V", 0.9, 11.0), (", input window: 12 V", 0.9, 0.0),
])
def test_an_inverter(fields, efficiency, least):
    found = converters(f"house: {BANK}\ninv: inverter, power: 1 kW, neutral: bonded, phases: 2+N{fields}",
                       "inv: feed: house/fuse 150 A -> inv, wire: 2/0 AWG 1 m")
    assert list(found) == ["inv L1", "inv L2"]
    for one in found.values():
        assert (one.from_plus, one.from_minus, one.volts) == ("inv.+", "inv.-", 120.0)
        assert (one.efficiency, one.least) == (pytest.approx(efficiency), least)


UNITS = """
one: feed: house/fuse 300 A -> one, wire: 2/0 AWG 1 m
two: feed: house/fuse 300 A -> two, wire: 2/0 AWG 1 m
out: ac: one -> breaker 30 A/box, wire: 10 AWG 1 m
beside: ac: two -> breaker 30 A/box, wire: 10 AWG 1 m
kettle: ac: box/breaker 20 A -> kettle, wire: 12 AWG 1 m
oven: ac: box/breaker 20 A -> oven, wire: 12 AWG 1 m
"""


@pytest.mark.parametrize(("powers", "off", "share", "watts"), [
    ((1000, 1000), (), 2 / 3, 2000), ((2000, 1000), (), 1.0, 3000), ((2100, 2000), (), 1.0, 3000),
    ((1000, 500), ("kettle",), 0.75, 1500), ((1000, 1000), ("kettle",), 1.0, 2000), ((1000, 1000), ("kettle", "oven"), 1.0, 0),
])
def test_of_what_is_asked_above_its_power_an_inverter_takes_nothing_from_the_bank(powers, off, share, watts):
    """A kettle of 1 kW, two ovens of 1 kW each; units side by side give together. Common practice: it limits, or opens."""
    nodes = (f"house: {BANK}\nbox: ac panel, rating: 40 A\nkettle: ac load, power: 1 kW\noven: ac load, power: 1 kW, count: 2\n"
             f"one: inverter, power: {powers[0]} W, neutral: bonded\ntwo: inverter, power: {powers[1]} W, neutral: bonded")
    made = operation(nodes, UNITS, State("now", frozenset(), {}, frozenset(off)))
    assert {one.name: one.share for one in made.network.converters} == pytest.approx({"one L": share, "two L": share})
    taken = sum(amps * made.volts(f"{name.split()[0]}.+", f"{name.split()[0]}.-") for name, amps in made.flow.drawn.items())
    assert taken == pytest.approx(watts / 0.9, rel=0.02)  # the lines to the loads lose a little


@pytest.mark.parametrize(("to", "made"), [("bar", True), ("lone", False)])
def test_what_charges_by_ac_needs_a_battery_to_charge(to, made):
    nodes = (f"house: {BANK}\nbar: bar, rating: 100 A\nlone: bar, rating: 100 A\npedestal: shore, rating: 30 A\n"
             "charger: ac charger, output: 20 A\ncombi: inverter charger, power: 1 kW, charge: 40 A")
    lines = ("house: feed: house/fuse 100 A -> bar, return: none, wire: 4 AWG 1 m\n"
             f"charger: feed: charger -> fuse 30 A/{to}, return: none, wire: 8 AWG 1 m\n"
             f"combi: feed: combi -> fuse 60 A/{to}, return: none, wire: 6 AWG 1 m\n"
             "one: ac: pedestal -> breaker 2-pole 15 A -> charger, wire: [14 AWG 1 m, 1 m]\n"
             "two: ac: pedestal -> breaker 2-pole 15 A -> combi.in, wire: [14 AWG 1 m, 1 m]")
    found = converters(nodes, lines, "on shore power")
    assert list(found) == (["charger charging", "combi charging"] if made else [])
    for one, amps in zip(found.values(), (20.0, 40.0)):
        assert one.volts == pytest.approx(14.2, abs=0.4) and one.amps == amps and one.efficiency == 0.9


def test_an_inverter_charger_that_does_not_charge():
    found = converters(f"house: {BANK}\npedestal: shore, rating: 30 A\ncombi: inverter charger, power: 1 kW, charge: 0 A",
                       "combi: feed: combi -> fuse 60 A/house, wire: 6 AWG 1 m\n"
                       "in: ac: pedestal -> breaker 2-pole 15 A -> combi.in, wire: [14 AWG 1 m, 1 m]", "on shore power")
    assert found == {}


def test_a_charger_of_several_lines_takes_as_much_from_each():
    found = converters(f"house: {BANK}\npedestal: shore, rating: 30 A, phases: 2+N\n"
                       "combi: inverter charger, power: 2 kW, charge: 60 A, phases: 2+N",
                       "combi: feed: combi -> fuse 80 A/house, wire: 4 AWG 1 m\n"
                       "in: ac: pedestal -> breaker 3-pole 30 A -> combi.in, wire: [10 AWG 1 m, 1 m]", "on shore power")
    assert {name: one.amps for name, one in found.items()} == {"combi charging L1": 30.0, "combi charging L2": 30.0}


def test_an_inverter_charger_charges_from_the_input_it_passes_on():
    nodes = f"house: {BANK}\ncombi: inverter charger, power: 1 kW, charge: 40 A, inputs: 2"
    lines = "combi: feed: combi -> fuse 60 A/house, wire: 6 AWG 1 m"
    for position, port in (("bypass", "in"), ("bypass 2", "in2")):
        (one,) = converters(nodes, lines, State("now", frozenset(), {"combi": position})).values()
        assert (one.from_plus, one.from_minus) == (f"combi.{port}.L", f"combi.{port}.N")
    assert list(converters(nodes, lines, State("now", frozenset(), {}))) == ["combi L"]  # unsaid, it inverts


@pytest.mark.parametrize(("input_", "output", "names"), [("2+N", "2+N", ["L1", "L2"]), ("1", "1", ["L"])])
def test_a_transformer_winding_by_winding(input_, output, names):
    """One of this size passes on some 95 % of the power: common practice."""
    found = converters(f"pedestal: shore, rating: 30 A, phases: {input_}\nbox: transformer, power: 3 kW, phases: {output}",
                       f"in: ac: pedestal -> breaker {len(names) + 1}-pole 30 A -> box.in, wire: [10 AWG 1 m, 1 m]",
                       "on shore power")
    assert list(found) == [f"box {name}" for name in names]
    assert all(one.efficiency == 0.95 and one.volts == 120.0 for one in found.values())


CHARGER = "b2b: dc charger, output: 30 A, max pv voltage: 60 V"
DC = """
start: feed: start/fuse 100 A -> stud, wire: 4 AWG 1 m
in: feed: stud/fuse 60 A -> b2b.in, wire: 6 AWG 2 m
out: feed: b2b -> fuse 40 A/house, wire: 8 AWG 2 m
"""
ENGINES = "stud: bar, rating: 200 A, pair: back\nback: bar, rating: 200 A\nalt: alternator, output: 90 A\nalt2: alternator, output: 90 A"
ALT = "alt: feed: alt -> fuse 100 A/stud, wire: 4 AWG 1 m"
ALT2 = "alt2: feed: alt2 -> fuse 100 A/stud, wire: 4 AWG 1 m"
PV = "roof: pv, power: 100 W, voc: 22 V, isc: 6 A"
AND_PV = "pv: feed: roof -> b2b.pv, wire: 10 AWG 3 m"


def b2b(running: set[str], *lines: str, more: str = "") -> list[str]:
    nodes = "\n".join((TWO, ENGINES, CHARGER, PV, more))
    return list(converters(nodes, "\n".join((DC, *lines)), State("now", frozenset(running))))


def test_a_dc_charger_runs_with_the_engine_on_its_input():
    assert b2b({"alt"}, ALT, ALT2) == ["b2b"] and b2b({"alt", "alt2"}, ALT, ALT2) == ["b2b"]
    assert b2b({"roof"}, ALT) == []  # something runs, but not what charges its input
    assert b2b(set(), ALT) == [] and b2b(set()) == []  # nothing runs: it does not empty the bank before it


def test_a_dc_charger_without_an_engine_on_its_input_runs_with_anything():
    assert b2b({"roof"}) == ["b2b"]
    elsewhere = "alt: feed: alt -> fuse 100 A/house, wire: 4 AWG 1 m"  # on its output: of no use to its input
    assert b2b({"roof"}, elsewhere) == ["b2b"]


def test_a_dc_charger_that_the_sun_feeds_takes_nothing_from_its_input():
    assert b2b({"alt", "roof"}, ALT, AND_PV) == [] and b2b({"alt"}, ALT, AND_PV) == ["b2b"]


def test_a_dc_charger_without_a_battery_behind_it_gives_nothing():
    nodes = "\n".join((TWO, ENGINES, CHARGER))
    assert converters(nodes, DC.replace("40 A/house", "40 A/alt2"), State("now", frozenset(("alt",)))) == {}


def test_a_dc_charger_gives_what_its_bank_is_charged_at():
    nodes, lines = "\n".join((TWO, ENGINES, CHARGER)), "\n".join((DC, ALT))
    found = operation(nodes, lines, State("now", frozenset(("alt",))))
    (one,) = found.network.converters
    assert one.volts == charge_voltage(found.system, "house.+") and one.amps == 30.0
    assert (one.from_plus, one.from_minus) == ("b2b.in.+", "b2b.in.-")
