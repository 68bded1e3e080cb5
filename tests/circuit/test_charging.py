"""What charges the batteries, with how much, and which of them it reaches."""

from __future__ import annotations

import pytest

from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.charging import charging
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.electrics.battery import window
from tests.circuit.cases import netlist, system

NODES = """
house: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah
bar: bar, rating: 200 A, pair: back
back: bar, rating: 200 A
"""
MAIN = "main: feed: house/fuse 200 A -> bar, return: house -> back, wire: 2/0 AWG 1 m"


def view(nodes: str, *lines: str):
    return Survey(system(netlist(NODES + nodes, "\n".join((MAIN, *lines))))).start


def line(node: str) -> str:
    return f"{node}: feed: {node} -> fuse 100 A/bar, wire: 4 AWG 1 m"


@pytest.mark.parametrize(("fields", "amps"), [
    ("output: 90 A", 90), ("output: 90 A, continuous: 60 A", 60), ("output: 90 A, self limiting: no", 90),
    ("output: 90 A, continuous: 60 A, self limiting: no", 90),  # nothing holds it to what it can stand for long
])
def test_what_an_alternator_gives(fields, amps):
    (one,) = charging(view(f"machine: alternator, {fields}", line("machine"))).all
    assert one.amps == amps and one.terminal == "machine.+" and one.into(12.0) == amps


def test_what_charges_and_what_does_not():
    """In file order: turbines and alternators as well as chargers, no modules without a controller, nothing unwired."""
    kinds = {
        "mill": "wind, power: 240 W, voltage: 12 V", "wheel": "hydro, power: 120 W, output: 8 A", "alt": "alternator, output: 90 A",
        "roof": "pv, power: 100 W, voc: 22 V, isc: 6 A", "step": "converter, voltage: 12 V, output: 30 A",
        "mains": "ac charger, output: 15 A", "spare": "ac charger, output: 25 A", "b2b": "dc charger, output: 30 A",
    }
    wired = [name for name in kinds if name != "spare"]
    found = charging(view("\n".join(f"{name}: {text}" for name, text in kinds.items()), *map(line, wired))).all
    assert {one.node.name: one.amps for one in found} == {"mill": 20, "wheel": 8, "alt": 90, "mains": 15, "b2b": 30}
    assert [one.node.name for one in found] == ["mill", "wheel", "alt", "mains", "b2b"]


def test_a_charger_of_two_outputs_counts_once_for_a_bank():
    known = view("mains: ac charger, output: 15 A, outputs: 2", line("mains"),
                 "second: feed: mains.2 -> fuse 100 A/bar, wire: 4 AWG 1 m")
    (store,) = stores(known).all
    assert [one.terminal for one in charging(known).all] == ["mains.+", "mains.2"]
    assert [one.terminal for one in charging(known).of(store)] == ["mains.+"]


@pytest.mark.parametrize("kind", ["ac charger, output: 20 A", "dc charger, output: 20 A", "alternator, output: 20 A"])
@pytest.mark.parametrize(("stated", "volts"), [
    ("", None), (", voltage: 12 V", None), (", voltage: 12.96 V", None), (", voltage: 12.97 V", 12.97), (", voltage: 14.4 V", 14.4),
])
def test_a_charge_voltage_that_is_stated(kind, stated, volts):
    """One within 8 % of the bank's nominal voltage is read as nominal: practice of this program."""
    known = view(f"one: {kind}{stated}", line("one"))
    (store,) = stores(known).all
    assert charging(known).of(store)[0].set_point(store) == volts


def test_the_voltage_of_a_turbine_or_of_ac_is_no_charge_voltage():
    known = view("mill: wind, power: 240 W, voltage: 14.4 V\ncombi: inverter charger, power: 1 kW, charge: 20 A, voltage: 230 V",
                 line("mill"), line("combi"))
    (store,) = stores(known).all
    assert [one.set_point(store) for one in charging(known).of(store)] == [None, None]


@pytest.mark.parametrize(("device", "reaches"), [
    ("switch 100 A", True), ("switch 100 A open", False), ("fuse 100 A", True), ("switch ignition 100 A", True),
])
def test_a_switch_that_rests_open_is_left_open(device, reaches):
    """It joins banks in an emergency only: common practice."""
    known = view("alt: alternator, output: 90 A\nstud: bar, rating: 200 A",
                 "alt: feed: alt -> fuse 100 A/stud, return: alt -> back, wire: 4 AWG 1 m",
                 f"link: feed: stud -> {device} -> bar, return: none, wire: [4 AWG 1 m, 1 m]")
    (store,), (one,) = stores(known).all, charging(known).all
    assert one.reaches(store) is reaches and charging(known).of(store) == ((one,) if reaches else ())


PAIR = """
b1: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah
b2: battery, chemistry: flooded, voltage: 12 V, capacity: 100 Ah
bar: bar, rating: 200 A
"""


def charged(lines: str, terminal: str, more: str = "") -> float | None:
    return charge_voltage(system(netlist(PAIR + more, lines)), terminal)


LINK = "link: {}, wire: 2 AWG 0.3 m\n"
TOP = "top: feed: b2/fuse 100 A -> bar, return: none, wire: 2 AWG 1 m\n"


def alone(number: int) -> float:
    """[V] that one of the pair is charged at by itself."""
    return window({1: "agm", 2: "flooded"}[number], 12.0).absorption


@pytest.mark.parametrize("link", [
    "feed: b1.+ -> b2.-, return: none", "series: b1 -> b2", "feed: b2.- -> fuse 100 A/b1.+, return: none",
])
def test_a_stack_is_charged_at_the_sum(link):
    assert charged(LINK.format(link) + TOP, "bar") == pytest.approx(alone(1) + alone(2))


def test_a_middle_link_that_is_written_as_a_return():
    lines = TOP.replace("return: none", "return: b2.- -> b1.+")
    assert charged(lines, "bar") == pytest.approx(alone(1) + alone(2))


def test_no_voltage_where_no_battery_stands():
    assert charged(TOP, "bar", "lone: bar, rating: 20 A") == alone(2)
    assert charged(TOP, "lone", "lone: bar, rating: 20 A") is None
    assert charged(TOP, "b2.-") is None and charged(TOP, "inv.+") is None


def test_batteries_that_close_on_themselves_end():
    ring = LINK.format("feed: b1.+ -> b2.-, return: none") + "back: feed: b2.+ -> b1.-, return: none, wire: 2 AWG 0.3 m\n"
    assert charged(ring, "b1.+") == pytest.approx(alone(1) + alone(2))
    assert charged("short: feed: b1.+ -> b1.-, return: none, wire: 2 AWG 0.3 m\n", "b1.+") == alone(1)


def test_a_link_inside_a_converter_or_over_earth_stacks_nothing():
    case = "step: converter, voltage: 12 V, output: 10 A, common: positive\nground: earth"
    lines = (TOP + "in: feed: b2/fuse 30 A -> step.in, wire: 8 AWG 1 m\n"
             "out: feed: step -> lamp, wire: 8 AWG 1 m\n")
    assert charged(lines, "step.in.+", case + "\nlamp: load, voltage: 12 V, power: 9 W") == alone(2)
    assert charged(lines, "step.+", case + "\nlamp: load, voltage: 12 V, power: 9 W") is None
    earthed = TOP + "e1: bond: b1.+ -> ground, wire: 8 AWG 1 m\ne2: bond: b2.- -> ground, wire: 8 AWG 1 m\n"
    assert charged(earthed, "bar", "ground: earth") == alone(2)
