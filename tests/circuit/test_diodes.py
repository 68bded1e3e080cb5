"""Diodes in the power flow: a diode passes current one way only (common practice)."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from diagrammer.circuit.diodes import _backwards, _forwards
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from diagrammer.electrics.network import Collapse
from diagrammer.netlist.read import read

HEAD = """\
practice: abyc
nodes:
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah, pair: frame}
  frame: {kind: chassis}
  alternator: {kind: alternator, voltage: 14 V, output: 70 A}
  stud: {kind: joint}
  split-one: {kind: isolator, rating: 140 A, type: %s}
  split-two: {kind: isolator, rating: 140 A, type: %s}
  bank: {kind: bank, chemistry: flooded, voltage: 12 V, capacity: 60 Ah, pair: frame}
  bar: {kind: bar, rating: 400 A, pair: frame}
  sun: {kind: solar charger, type: mppt, max pv voltage: 100 V, output: 400 A}
  roof: {kind: pv, power: 400 W, voc: 48 V, vmp: 40 V, isc: 10.7 A, imp: 10 A, parallel: 16}
circuits:
  - {name: start, return: engine-battery -> frame, wire: 2/0 AWG 0.4 m}
  - {name: alternator, feed: alternator -> stud, return: alternator/frame, wire: 2 AWG 1 m}
  - {name: one, feed: stud -> split-one -> fuse 100 A/engine-battery, return: none, wire: 2 AWG 1 m}
  - {name: two, feed: stud -> split-two -> fuse 100 A/bar, return: none, wire: 2 AWG 1 m}
  - {name: main, feed: bank/fuse 300 A -> bar, return: bank -> frame, wire: 2/0 AWG 1 m}
  - {name: sun, feed: sun -> fuse 500 A/bar, return: frame -> sun, wire: 1/0 AWG 1 m}
  - {name: roof, feed: roof -> sun.pv, wire: 6 AWG 4 m}
"""


def flowing(kind: str, running: frozenset[str]) -> Operation:
    system, problems = read(HEAD % (kind, kind))
    assert not problems, problems
    state = next(one for one in states(system) if one.running == running)
    return Operation(system, state, "low")


def inside(one: Operation, node: str) -> float:
    number = next(n for n, inside in enumerate(one.system.insides) if inside.node == node)
    return one.flow.amps.get(f"inside {node} {number}", 0.0)


BOTH = frozenset(("alternator", "roof"))


def test_the_sun_charges_no_starter_through_diodes():
    one = flowing("diode", BOTH)
    assert inside(one, "split-two") >= 0 and 0 < inside(one, "split-one") <= 70 + 1e-3


def test_through_contacts_it_does():
    one = flowing("sensing", BOTH)
    assert inside(one, "split-two") < -1 and inside(one, "split-one") > 70


DIODE = """\
nodes:
  high: {kind: battery, chemistry: agm, voltage: 24 V, capacity: 100 Ah, pair: frame}
  lamp: {kind: load, voltage: 24 V, power: 24 W}
  frame: {kind: chassis}
  d: {kind: diode, rating: 10 A}
circuits:
  - {return: high -> frame, wire: 12 AWG 1 m}
  - {feed: high/fuse 5 A -> d.IN, return: none, wire: 12 AWG 1 m}
  - {feed: d.OUT -> lamp, return: lamp -> frame, wire: 12 AWG 1 m}
"""


@pytest.mark.parametrize(("enter", "leave", "amps"), [("1", "2", 1.0), ("2", "1", 0.0)])
def test_a_diode_passes_from_1_to_2_only(enter, leave, amps):
    system, problems = read(DIODE.replace("IN", enter).replace("OUT", leave))
    assert not problems, problems
    assert inside(Operation(system, states(system)[0]), "d") == pytest.approx(amps, rel=0.1)


def test_one_that_opens_lets_another_close():
    """Of two diodes to one load from unlike banks the higher one alone conducts (the OR of two supplies)."""
    system, problems = read("""\
nodes:
  high: {kind: battery, chemistry: agm, voltage: 24 V, capacity: 100 Ah, pair: frame}
  low: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah, pair: frame}
  lamp: {kind: load, voltage: 9 .. 33 V, power: 24 W}
  stud: {kind: joint}
  frame: {kind: chassis}
  up: {kind: diode, rating: 10 A}
  down: {kind: diode, rating: 10 A}
circuits:
  - {return: high -> frame, wire: 12 AWG 1 m}
  - {return: low -> frame, wire: 12 AWG 1 m}
  - {feed: high/fuse 5 A -> up -> stud, return: none, wire: 12 AWG 1 m}
  - {feed: low/fuse 5 A -> down -> stud, return: none, wire: 12 AWG 1 m}
  - {feed: stud -> lamp, return: lamp -> frame, wire: 12 AWG 1 m}
""")
    assert not problems, problems
    one = Operation(system, states(system)[0])
    assert inside(one, "down") == 0.0 and inside(one, "up") == pytest.approx(1.0, rel=0.1)


@pytest.mark.parametrize(("amps", "backwards"), [
    (1.0, False), (-0.95e-3, False), (-1e-3, False), (-1.05e-3, True), (None, False)])
def test_a_milliampere_is_rest(amps, backwards):
    """From whose 2 to whose 1 more flows, it is to be opened; once open it is not asked again."""
    wires, found = around({} if amps is None else {"inside up 7": amps}, {})
    assert _backwards(wires, found, frozenset()) == (frozenset([7]) if backwards else frozenset())
    assert _backwards(wires, found, frozenset([7])) == frozenset()


@pytest.mark.parametrize(("volts", "closes"), [
    ({"a": 12.0, "b": 12.00095}, False), ({"a": 12.00095, "b": 12.0}, False), ({"a": 1e-3, "b": 0.0}, False),
    ({"a": 12.00105, "b": 12.0}, True),
    ({"a": 12.1}, False), ({"b": 12.1}, False), ({}, False),  # a side that no source reaches stays apart
])
def test_a_millivolt_is_rest(volts, closes):
    wires, found = around({}, volts)
    assert _forwards(wires, found, frozenset([7])) == (frozenset([7]) if closes else frozenset())
    assert _forwards(wires, found, frozenset()) == frozenset()


def around(amps: dict[str, float], volts: dict[str, float]) -> tuple:
    """A diode from a to b beside a contact, and what flows."""
    insides = {7: SimpleNamespace(node="up", form="diode", a="a", b="b"),
               8: SimpleNamespace(node="up", form="contact", a="a", b="b")}
    return (SimpleNamespace(closed=(7, 8), system=SimpleNamespace(insides=insides)),
            SimpleNamespace(amps={"inside up 8": -5.0, **amps}, volts=volts))


def test_where_nothing_can_be_solved_no_diode_is_asked():
    """More than the line to the lamp can carry at any voltage: P > U² / 4 R (maximum power transfer)."""
    system, problems = read(DIODE.replace("IN", "1").replace("OUT", "2").replace("power: 24 W", "power: 24 kW"))
    assert not problems, problems
    one = Operation(system, states(system)[0])
    assert isinstance(one.result, Collapse) and one.flow is None
