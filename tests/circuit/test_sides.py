"""What stands on either side of an edge, counted by hand."""

from __future__ import annotations

import pytest

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.sides import NOTHING, Side, Sides
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = """
    house: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah
    start: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah
    alt: alternator, output: 90 A{limit}
    returns: bar, rating: 400 A
    far: bar, rating: 400 A, pair: returns
    bus: bar, rating: 400 A, pair: returns
    sun: solar charger, type: mppt, max pv voltage: 100 V, output: 35 A
    roof: pv, power: 200 W, voc: 24 V, vmp: 20 V, isc: 10 A
    ic: inverter charger, power: 1 kW, charge: 0 A
    lamp: load, voltage: 12 V, power: 20 W
"""
LINES = """
    house: feed: house/fuse 200 A -> bus, return: house -> returns, wire: 2/0 AWG 1 m
    start: feed: start/fuse 100 A -> far, return: start -> returns, wire: 2 AWG 1 m
    alt: feed: alt -> fuse 125 A/far, return: alt -> returns, wire: 2 AWG 1 m
    one: feed: bus -> far, return: none, wire: 2 AWG 1 m
    two: feed: bus -> far, return: none, wire: 2 AWG 1 m
    sun: feed: sun -> breaker 40 A/bus, return: sun -> returns, wire: 8 AWG 1 m
    pv: feed: roof -> sun.pv, wire: 10 AWG 3 m
    ac: feed: bus/fuse 200 A -> ic, return: returns -> ic, wire: 2 AWG 1 m
    lamp: feed: bus/fuse 10 A -> lamp, return: returns -> lamp, wire: 14 AWG 1 m
"""


def sides(limit: str = "", nodes: str = NODES, lines: str = LINES) -> Sides:
    return Sides(Survey(system(netlist(nodes.format(limit=limit), lines))).start)


def test_both_sides_of_every_line():
    found = sides()
    amps = {name: one.short_circuit for name, one in batteries(found.view.system).items()}
    house, start = Side(amps["house"], unlimited=1, main=1), Side(amps["start"], unlimited=1)  # of an engine: no main
    alternator, charger = Side(limited=1), Side(limited=1)
    everything = house + start + alternator + charger
    assert found.of("house:f0") == (house, start + alternator + charger)
    assert found.of("start:f0") == (start, house + alternator + charger)
    assert found.of("alt:f0") == (alternator, house + start + charger)
    assert found.of("sun:f0") == (charger, house + start + alternator)
    assert found.of("lamp:f0") == (everything, NOTHING)
    assert found.of("ac:f0") == (everything, NOTHING)  # an inverter that charges nothing gives none
    assert found.of("one:f0") == found.of("two:f0") == (everything, everything)
    assert found.of("pv:f0") == (Side(raw=12.5), Side(takers=1))  # 125 % of its short-circuit current: NEC 690.8(A)
    assert found.of("house:r0") == (NOTHING, NOTHING)  # not of the feed side


def test_what_parts():
    found = sides()
    assert [key for key in ("house:f0", "pv:f0", "one:f0", "two:f0", "house:r0") if found.parts(key)] == [
        "house:f0", "pv:f0"]


def test_an_alternator_that_does_not_limit_itself():
    assert sides(", self limiting: no").of("alt:f0")[0] == Side(unlimited=1)


@pytest.mark.parametrize("taker, port", [
    ("solar charger, type: mppt, max pv voltage: 100 V, output: 35 A", "pv"),
    ("dc charger, output: 30 A, voltage: 12 V, input voltage: 12 V, max pv voltage: 50 V", "pv"),
    ("pv inverter, power: 1 kW, max pv voltage: 100 V", "pv"), ("wind charger, output: 30 A", "in"),
])
def test_chargers_take_what_sun_wind_and_water_give(taker, port):
    nodes = f"roof: hydro, power: 200 W, voltage: 12 V, output: 20 A\n taker: {taker}"
    found = sides(nodes=nodes, lines=f"pv: feed: roof -> taker.{port}, return: roof -> taker.{port}, wire: 10 AWG 3 m")
    assert found.of("pv:f0") == (Side(raw=20), Side(takers=1))


@pytest.mark.parametrize("side, gives", [
    (Side(), False), (Side(unlimited=1), True), (Side(limited=1), True), (Side(raw=0.1), True),
    (Side(raw=1e-9), False), (Side(raw=1.05e-9), True), (Side(takers=1), False),
])
def test_what_gives(side, gives):
    """A nanoampere is what rounding may leave of a difference."""
    assert side.gives == gives


def test_sums_and_differences():
    one, other = Side(1.0, 2, 3, 4.0, 5, 6), Side(10.0, 20, 30, 40.0, 50, 60)
    assert one + other == other + one == Side(11.0, 22, 33, 44.0, 55, 66)
    assert other - one == Side(9.0, 18, 27, 36.0, 45, 54)
    assert one + NOTHING == NOTHING + one == one - NOTHING == one
