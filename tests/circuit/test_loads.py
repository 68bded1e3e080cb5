"""What draws power in a state: loads as they are made, and what outlets behind an inverter may take."""

from __future__ import annotations

from dataclasses import replace

import pytest

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from tests.circuit.cases import netlist, system

BANK = "bank: bank, chemistry: lifepo4, voltage: 24 V, capacity: 200 Ah"


def loads(nodes: str, lines: str, state: State | None = None, charge: str = "nominal"):
    one = system(netlist(f"{BANK}\n{nodes}", lines))
    return {load.name: load for load in Operation(one, state or states(one)[0], charge).network.loads}


@pytest.mark.parametrize(("fields", "sort", "value", "least"), [
    ("voltage: 24 V, power: 60 W", "power", 60, 0), ("voltage: 24 V, current: 3 A", "current", 3, 0),
    ("voltage: 24 V, power: 60 W, count: 3", "power", 180, 0), ("voltage: 24 V, current: 3 A, count: 3", "current", 9, 0),
    ("voltage: 11 .. 30 V, power: 60 W", "power", 60, 11), ("voltage: 24 V, power: 60 W, duty: light", "power", 60, 0),
    ("voltage: 24 V, power: 96 W, duty: heat", "resistance", 6, 0),  # R = V² / P
    ("voltage: 24 V, power: 96 W, duty: heat, count: 3", "resistance", 2, 0),  # three of 6 Ω side by side
    ("voltage: 11 .. 30 V, power: 96 W, duty: heat", "power", 96, 11),
    ("voltage: 24 V, current: 4 A, duty: heat", "current", 4, 0),
])
def test_a_dc_load(fields, sort, value, least):
    one = loads(f"it: load, {fields}", "it: feed: bank/fuse 20 A -> it, wire: 10 AWG 1 m")["it"]
    assert (one.plus, one.minus, one.sort, one.least) == ("it.+", "it.-", sort, least)
    assert one.value == pytest.approx(value)


def test_a_drive_takes_its_losses_too():
    """90 % (common practice)."""
    one = loads("it: drive, voltage: 24 V, power: 9 kW", "it: feed: bank/fuse 500 A -> it, wire: 4/0 AWG 1 m")["it"]
    assert (one.plus, one.minus, one.sort, one.value) == ("it.+", "it.-", "power", pytest.approx(10000))


@pytest.mark.parametrize(("fields", "found"), [
    ("", {"it L": ("it.L", "it.N", 600)}), (", count: 2", {"it L": ("it.L", "it.N", 1200)}),
    (", phases: 2+N", {"it L1": ("it.L1", "it.N", 300), "it L2": ("it.N", "it.L2", 300)}),
    (", phases: 2", {"it L1-L2": ("it.L1", "it.L2", 600)}),
    (", phases: 3+N", {f"it L{n}": (f"it.L{n}", "it.N", 200) for n in (1, 2, 3)}),
])
def test_an_ac_load_takes_as_much_from_each_winding(fields, found):
    lines = fields.partition("phases: ")[2].replace("+N", "") or "1"
    source = f"box: generator, power: 9 kW, neutral: bonded, phases: {'1' if lines == '1' else lines + '+N'}"
    made = loads(f"{source}\nit: ac load, power: 600 W{fields}", "it: ac: box/breaker 20 A -> it, wire: 12 AWG 1 m")
    assert {name: (one.plus, one.minus, one.value) for name, one in made.items()} == found
    assert {(one.sort, one.least) for one in made.values()} == {("power", 0)}


INVERTER = "box: inverter, power: 1 kW, neutral: floating"
COMBI = "box: inverter charger, power: 1 kW, charge: 20 A"
SMALL = "plugs: outlet, rating: 15 A\nkettle: ac load, power: 300 W"
LINES = """
box: feed: bank/fuse 100 A -> box, wire: 2/0 AWG 1 m
plugs: ac: box/breaker 15 A -> plugs, wire: 14 AWG 1 m
kettle: ac: box/breaker 15 A -> kettle, wire: 14 AWG 1 m
"""


def outlets(nodes: str, lines: str = LINES, state: State | None = None, charge: str = "low"):
    made = loads(nodes, lines, state, charge).get("box outlets")
    return made and (made.plus, made.minus, made.sort, made.least) == ("box.+", "box.-", "power", 0) and made.value


@pytest.mark.parametrize("box", [INVERTER, COMBI])
def test_outlets_may_take_what_the_loads_beside_them_leave(box):
    assert outlets(f"{box}\n{SMALL}") == pytest.approx(700 / 0.9)
    assert outlets(f"{box}, efficiency: 80 %\n{SMALL}") == pytest.approx(700 / 0.8)
    assert outlets(f"{box}\n{SMALL}, count: 2") == pytest.approx(400 / 0.9)
    assert outlets(f"{box}\n{SMALL}, count: 3") == pytest.approx(100 / 0.9)


def test_outlets_take_nothing_where_nothing_is_left():
    """A kettle of all its power, and of more."""
    for watts in ("1 kW", "1.1 kW"):
        assert outlets(f"{INVERTER}\n{SMALL.replace('300 W', watts)}") is None
    assert outlets(f"{INVERTER}\n{SMALL.replace('300 W', '999.1 W')}") == pytest.approx(1)
    lines = LINES.replace("box/breaker 15 A -> plugs", "other/breaker 15 A -> plugs")
    other = "\nother: generator, power: 2 kW, neutral: bonded"
    assert outlets(f"{INVERTER}\n{SMALL}{other}", lines) is None  # no outlet behind this one


@pytest.mark.parametrize("charge", ["nominal", "full"])
def test_outlets_count_with_the_banks_low_only(charge):
    assert outlets(f"{INVERTER}\n{SMALL}", charge=charge) is None


def test_a_load_that_is_off_leaves_its_power_to_the_outlets():
    asleep = State("asleep", frozenset(), {}, frozenset(("kettle",)))
    assert outlets(f"{INVERTER}\n{SMALL}", state=asleep) == pytest.approx(1000 / 0.9)
    assert outlets(f"{INVERTER}\n{SMALL}", state=replace(asleep, off=frozenset(("plugs",)))) is None
    assert outlets(f"{INVERTER}\n{SMALL}", state=replace(asleep, off=frozenset(("box",)))) is None


@pytest.mark.parametrize(("position", "watts"), [("inverting", 700 / 0.9), ("bypass", None)])
def test_outlets_behind_a_bypass_take_nothing_from_the_bank(position, watts):
    found = outlets(f"{COMBI}\n{SMALL}", state=State("so", frozenset(), {"box": position}))
    assert found == (watts and pytest.approx(watts))


@pytest.mark.parametrize(("phases", "line"), [("2+N", "L1"), ("2+N", "L2"), ("3+N", "L3")])
def test_outlets_on_any_line(phases, line):
    lines = LINES.replace("ac: box/breaker 15 A -> plugs", f"ac: box -> panel, wire: 10 AWG 1 m\nplugs: ac: panel.{line}/breaker 15 A -> plugs")
    lines = lines.replace("box/breaker 15 A -> kettle", "panel.L1/breaker 15 A -> kettle").replace("plugs: ac: box", "panel: ac: box")
    nodes = f"{INVERTER}, phases: {phases}\n{SMALL}\npanel: ac panel, rating: 50 A, phases: {phases}"
    assert outlets(nodes, lines) == pytest.approx(700 / 0.9)
