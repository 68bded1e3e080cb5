"""Where current gets from a terminal: through which devices, which way, and in which positions."""

from __future__ import annotations

import pytest

from diagrammer.circuit import paths as named
from diagrammer.circuit.paths import EVERYTHING, FOR_GOOD, Paths, Step, paths
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = """
    bank: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
    second: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
    lamp: load, voltage: 12 V, power: 20 W
    spot: load, voltage: 12 V, power: 20 W
    K-1: relay, rating: 10 A, coil: 12 V
    K-2: contactor, rating: 10 A, coil: 12 V
    spare: switch, rating: 10 A, open: yes
    hand: switch, type: battery, rating: 10 A
    m: shunt, rating: 100 A
    iso: isolator, rating: 50 A
    D-1: isolator, rating: 50 A, type: diode
    R-1: resistor, resistance: 1 ohm
    b: bms, rating: 100 A
    sel: selector, rating: 50 A
    step: converter, voltage: 12 V, output: 30 A, input voltage: 12 V
    pedestal: shore, rating: 30 A
    gen: generator, power: 3 kW, neutral: bonded
    RCD-1: rcd, rating: 30 A
    RCBO-1: rcbo, rating: 20 A
    change: transfer, rating: 30 A
    ic: inverter charger, power: 2 kW, charge: 50 A
    outlets: outlet, rating: 15 A
    gi: galvanic-isolator, rating: 30 A
    hull: chassis
"""
LINES = """
    main: feed: bank -> fuse F-1 10 A -> breaker Q-1 10 A -> K-1 -> K-2 -> spare -> hand -> lamp, \
return: bank -> R-1 -> b -> m -> lamp, wire: 10 AWG 1 m
    away: feed: bank -> iso -> second, return: none, wire: 10 AWG 1 m
    one-way: feed: second -> D-1 -> lamp, return: none, wire: 10 AWG 1 m
    one: feed: bank -> sel.1, return: none, wire: 10 AWG 1 m
    two: feed: second -> sel.2, return: none, wire: 10 AWG 1 m
    shore: ac: pedestal -> RCD-1 -> change.1, wire: 10 AWG 3 m
    gen: ac: gen -> RCBO-1 -> change.2, wire: 10 AWG 3 m
    in: ac: change -> ic.in, wire: 10 AWG 3 m
    out: ac: ic -> plug X-1 -> outlets, wire: 10 AWG 3 m
    bolted: feed: lamp/spot, return: none
    bond: bond: outlets.earth -> gi -> hull, wire: 10 AWG 1 m
"""


@pytest.fixture(scope="module")
def found() -> Paths:
    return Paths(Survey(system(netlist(NODES, LINES))).start)


def key_of(found: Paths, node: str) -> str:
    return next(key for key in found.view.edges if key.startswith(f"inside {node} "))


SORTS = {
    "F-1": "fuse", "Q-1": "breaker", "K-1": "relay", "K-2": "relay", "spare": "spare switch", "hand": "switch",
    "m": "shunt", "iso": "isolator", "D-1": "diode", "R-1": "resistor", "b": "bms", "sel": "selector",
    "change": "transfer", "RCD-1": "plug", "RCBO-1": "breaker", "X-1": "plug", "ic": "inner",
    "step": "", "pedestal": "", "gi": "",  # minus joined inside, neutral to earth, a capacitor: no path
}


@pytest.mark.parametrize("node", SORTS)
def test_what_a_device_is_to_a_path(found, node):
    assert found.sort(key_of(found, node)) == SORTS[node]


def test_what_lies_between_devices_is_wire(found):
    assert found.sort("main:f0") == found.sort("joint 0") == "wire"


@pytest.mark.parametrize("node", [node for node, sort in SORTS.items() if sort])
def test_a_device_is_passed_where_its_sort_is_asked_for(found, node):
    value = found.view.edges[key_of(found, node)]["value"]
    fast = {"ic": "bypass"}
    assert value.b in found.reach((value.a,), (SORTS[node],), fast)
    assert (value.a in found.reach((value.b,), (SORTS[node],), fast)) == (SORTS[node] != "diode")
    assert value.b not in found.reach((value.a,), ("wire",)) and value.a not in found.reach((value.b,), ("wire",))
    assert value.b not in found.reach((value.a,), (SORTS[node],), fast, without=(node,))


@pytest.mark.parametrize("node", [node for node, sort in SORTS.items() if not sort])
def test_nothing_passes_what_only_joins_potentials(found, node):
    value = found.view.edges[key_of(found, node)]["value"]
    assert value.b not in found.reach((value.a,), (*EVERYTHING, ""))


@pytest.mark.parametrize("sort", ["float", "momentary", "pressure", "ignition", "thermostat", "door", "foot"])
def test_a_switch_that_senses_works_by_itself(sort):
    lines = "main: feed: bank/fuse 10 A -> S-1 -> lamp, return: bank -> lamp, wire: 14 AWG 1 m"
    nodes = f"{NODES}\n S-1: switch, type: {sort}, rating: 10 A, open: yes"
    alone = Paths(Survey(system(netlist(nodes, lines))).start)
    assert alone.sort(key_of(alone, "S-1")) == "switch by itself"
    assert "lamp.+" in alone.reach(("bank.+",)) and "lamp.+" not in alone.reach(("bank.+",), FOR_GOOD)


def test_what_joins_for_good_and_what_is_everything():
    good = {"wire", "fuse", "breaker", "shunt", "plug", "resistor", "bms", "switch"}
    assert named.FOR_GOOD == good
    assert named.EVERYTHING == good | {"switch by itself"} | {
        "relay", "selector", "transfer", "spare switch", "isolator", "diode"}


def test_earth_is_no_path(found):
    assert set(found.reach(("outlets.earth",))) == {"outlets.earth"}


def test_a_selector_stands_in_one_position_at_a_time(found):
    """From 1 to 2 it leads in the position that joins both, and in no other."""
    way = ("wire", "selector")
    assert "sel.2" in found.reach(("sel.1",), way)
    assert "sel.2" in found.reach(("sel.1",), way, {"sel": "both"})
    assert "sel.common" in found.reach(("sel.1",), way, {"sel": "1"})
    assert "sel.2" not in found.reach(("sel.1",), way, {"sel": "1"})
    assert "sel.common" not in found.reach(("sel.1",), way, {"sel": "2"})
    assert set(found.reach(("change.1.L",), ("transfer",))) == {"change.1.L", "change.common.L"}


def test_an_inverter_charger_passes_only_where_it_stands_in_bypass(found):
    for fast, passes in (({}, False), ({"ic": "bypass"}, True), ({"ic": "inverting"}, False), ({"sel": "1"}, False)):
        assert ("ic.out.L" in found.reach(("ic.in.L",), positions=fast)) == passes
    fast = {"sel": "2", "ic": "bypass", "change": "1"}
    assert "outlets.L" in found.reach(("pedestal.L",), positions=fast)
    assert "outlets.L" not in found.reach(("gen.L",), positions=fast)


def test_the_way_back_to_the_start_is_the_shortest(found):
    reached = found.reach(("nowhere", "bank.+"))
    assert reached["bank.+"] == Step("", "") and "nowhere" not in reached
    keys = [key_of(found, node) for node in ("F-1", "Q-1", "K-1")]
    assert found.way(reached, "K-1.2") == ["main:f0", keys[0], "main:f1", keys[1], "main:f2", keys[2]]
    assert found.way(reached, "bank.+") == []


def test_made_once_for_a_view(found):
    assert paths(found.view) is paths(found.view) and paths(found.view).view is found.view
