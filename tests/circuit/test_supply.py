"""What storage and sources reach, what uses them, and who would miss a conductor."""

from __future__ import annotations

import pytest

from diagrammer.circuit.supply import Supply
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = """
bank: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
bar: bar, rating: 100 A, pair: back
back: bar, rating: 100 A
panel: bar, rating: 100 A, pair: back
lamp: load, voltage: 12 V, power: 10 W
pump: load, voltage: 12 V, power: 10 W
"""
MAIN = "main: feed: bank/fuse 100 A -> bar, return: bank -> back, wire: 2 AWG 1 m"
LAMP, PUMP = ("{0}: feed: {1}/fuse 5 A -> {0}, wire: 14 AWG 1 m".format(name, "panel") for name in ("lamp", "pump"))


def supply(nodes: str, *lines: str) -> Supply:
    view = Survey(system(netlist(NODES + nodes, "\n".join((MAIN, *lines))))).start
    return Supply(view, view.graph)


def link(through: str) -> str:
    return f"link: feed: bar -> {through} -> panel, return: none, wire: [8 AWG 1 m, 1 m]"


@pytest.mark.parametrize(("through", "reaches"), [
    ("fuse 30 A", True), ("switch 30 A", True), ("resistor 10 Ω", True), ("diode 30 A", True),
    ("relay K1 30 A", True), ("diode.2 D1", False),
])
def test_what_current_passes(through, reaches):
    """Switches and relays count as closed; a diode passes from 1 to 2 only."""
    nodes = "K1: relay, rating: 30 A, coil: 12 V\nD1: diode, rating: 30 A"
    line = link(through)
    if through.startswith("relay"):
        line = "link: feed: bar -> K1 -> panel, return: none, wire: [8 AWG 1 m, 1 m]"
    if through.startswith("diode.2"):
        line = "link: feed: panel -> D1 -> bar, return: none, wire: [8 AWG 1 m, 1 m]"
    of = supply(nodes, line, LAMP)
    met, fed = of.fed()
    assert ("lamp" in fed) is ("lamp.+" in met) is reaches and "pump" not in fed
    assert (("bank", "main") in of.used()) is reaches


@pytest.mark.parametrize(("source", "line", "gives"), [
    ("alternator, output: 60 A", "feed: own -> fuse 80 A/panel", True), ("wind, power: 100 W", "feed: own -> fuse 80 A/panel", True),
    ("battery, chemistry: agm, voltage: 12 V, capacity: 50 Ah", "feed: own -> fuse 80 A/panel", True),
    ("dc charger, output: 30 A", "feed: own -> fuse 80 A/panel", False),  # nothing feeds it
    ("converter, output: 30 A, voltage: 12 V", "feed: own -> fuse 80 A/panel", False),
])
def test_what_gives_by_itself(source, line, gives):
    of = supply(f"own: {source}", f"own: {line}, wire: 8 AWG 1 m", LAMP)
    assert ("lamp" in of.fed()[1]) is gives and ("own", "main") in of.used() and ("bank", "main") not in of.used()


IN, OUT = "in: feed: bar/fuse 30 A -> own.in, wire: 8 AWG 1 m", "out: feed: own -> fuse 40 A/panel, wire: 8 AWG 1 m"


def test_a_converter_lives_while_its_input_does():
    of = supply("own: converter, output: 30 A, voltage: 12 V", IN, OUT, LAMP)
    assert of.fed()[1] == {"own", "lamp"} and of.used() == {("bank", "main"), ("own", "main")}
    (key,) = [wire.id for wire in of.view.system.conductors if wire.cable == "in:f0"]
    assert of.fed((key,))[1] == set() and of.used((key,)) == {("own", "main")}


def test_from_the_main_port_to_the_load_port_and_not_back():
    sun = "own: solar charger, type: mppt, output: 20 A, max pv voltage: 60 V, load output: 10 A{}"
    for common in ("", ", common: positive"):
        to = supply(sun.format(common), "out: feed: own -> fuse 40 A/bar, wire: 8 AWG 1 m",
                    "lamp: feed: own.load -> lamp, return: own.load -> lamp, wire: 14 AWG 1 m")
        assert to.fed()[1] == {"own", "lamp"} and ("bank", "main") in to.used()
        ways = {pole: {end for end, _ in to.forward[f"own.{pole}"]} for pole in ("+", "-", "load.+", "load.-")}
        assert "own.load.+" in ways["+"] and "own.load.-" in ways["-"]
        assert "own.+" not in ways["load.+"] and "own.-" not in ways["load.-"]
        assert "own.+" in {start for start, _ in to.backward["own.load.+"]}
        back = supply(sun.format(common), "in: feed: bar/fuse 10 A -> own.load, wire: 14 AWG 1 m",
                      "lamp: feed: own -> lamp, wire: 14 AWG 1 m")
        assert "lamp" not in back.fed()[1]


def test_what_a_converter_joins_inside_feeds_nothing():
    out = "out: feed: own -> fuse 40 A/bar, wire: 8 AWG 1 m"
    of = supply("own: converter, output: 30 A, voltage: 12 V, common: positive", out,
                "lamp: feed: own.in -> lamp, return: own.in -> lamp, wire: 14 AWG 1 m")
    assert "lamp" not in of.fed()[1] and of.forward["own.+"] != [] and of.forward["own.in.+"] != []


def test_an_inverter_charger_passes_on_from_its_input():
    of = supply("own: inverter charger, power: 1 kW, charge: 20 A", "own: feed: bar/fuse 100 A -> own, wire: 2 AWG 1 m")
    assert "own.out.L" in [end for end, _ in of.forward["own.in.L"]]
    assert "own.in.L" not in [end for end, _ in of.forward["own.out.L"]]


def test_the_ports_that_something_is_meant_to_reach():
    of = supply("own: dc charger, output: 30 A, max pv voltage: 60 V\nsun: solar charger, type: mppt, output: 20 A, "
                "max pv voltage: 60 V, load output: 10 A")
    assert of.inputs == {"lamp": ("main",), "pump": ("main",), "own": ("in", "pv"), "sun": ("pv", "main")}


def test_who_would_miss_a_conductor():
    """Loads that lose their supply, sources that lose their use; what is named besides is not counted."""
    of = supply("alt: alternator, output: 60 A", "sub: feed: bar/fuse 50 A -> panel, return: none, wire: 6 AWG 1 m", LAMP, PUMP,
                "alt: feed: alt -> fuse 80 A/bar, wire: 4 AWG 1 m")
    keys = {wire.cable: wire.id for wire in of.view.system.conductors if wire.side == "feed"}
    assert {name: of.missed(keys[name]) for name in ("sub:f0", "lamp:f0", "main:f0", "alt:f0")} == {
        "sub:f0": 4, "lamp:f0": 1, "main:f0": 1, "alt:f0": 1}
    assert of.missed(keys["sub:f0"], ("lamp",)) == 3 and of.missed(keys["sub:f0"], ("bank", "alt")) == 2
    assert of.missed(keys["main:f0"], ("bank",)) == 0
