"""How each node is wired: what lands where, what leads nowhere, what is joined on the way back."""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.circuit.wiring import Wiring
from tests.circuit.cases import netlist, system

NODES = """
bank: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, pair: back
bar: bar, rating: 100 A, pair: back
back: bar, rating: 100 A
box: panel, rating: 30 A, pair: back
lamp: load, voltage: 12 V, power: 10 W
"""
LINES = """
main: feed: bank/fuse 100 A -> bar, return: bank -> back, wire: 2 AWG 1 m
box: feed: bar/fuse 30 A -> box, return: none, wire: 8 AWG 1 m
lamp: feed: box/fuse 5 A -> switch 10 A -> lamp, wire: [14 AWG 1 m, 1 m]
"""


def view(nodes: str = "", lines: str = ""):
    return Survey(system(netlist(NODES + nodes, LINES + lines))).start


def wiring(nodes: str = "", lines: str = "") -> Wiring:
    return Wiring(view(nodes, lines))


def test_a_blamed_line_excuses_what_is_on_it_but_the_bar_it_begins_on():
    blamed = view().without((Fact("x", cables=("box:f0",)), Fact("y", nodes=("back",))))
    assert Wiring(blamed).excused == {"F2", "box", "back"}
    assert Wiring(view().without((Fact("x", cables=("lamp:f0",)),))).excused == {"F3", "Q1", "lamp"}
    assert Wiring(view()).excused == frozenset()
    joined = view("tee: joint", "tee: feed: bar -> tee -> box, return: none, wire: [8 AWG 1 m, 1 m]\n")
    assert Wiring(joined.without((Fact("x", cables=("tee:f1",)),))).excused == {"tee", "box"}


def test_the_ends_of_what_joins_the_poles():
    crossed = view().without((Fact("x", cables=("lamp:f0",)),), poles=True)
    assert Wiring(crossed).crossed == {"F3.2", "Q1.1", "Q1.2", "lamp.+", "lamp.-", "back"}
    assert Wiring(view().without((Fact("x", cables=("lamp:f0",)),))).crossed == frozenset()


AC = """
inv: inverter, power: 1 kW, neutral: bonded
board: ac panel, rating: 20 A
kettle: ac load, power: 500 W
"""
BOARD = """
inv: feed: bar/fuse 80 A -> inv, wire: 2 AWG 1 m
board: ac: inv -> board, wire: 12 AWG 1 m
kettle: ac: board/breaker 10 A -> kettle, wire: 14 AWG 1 m
"""


def test_how_many_land_on_a_terminal():
    """Conductors and joints; the cores of a cable are one."""
    found = wiring(AC + "spare: load, voltage: 12 V, power: 1 W", BOARD).degree
    for terminal, count in (("bank.+", 1), ("bar", 3), ("back", 3), ("box.+", 2), ("lamp.-", 1), ("F2.1", 1), ("F2.2", 1),
                            ("board.L", 2), ("board.N", 2), ("board.earth", 2), ("lamp.earth", 0), ("spare.+", 0)):
        assert found[terminal] == count, terminal


def test_a_node_is_wired_where_more_than_a_neutral_or_an_earth_lands():
    nodes = AC + "rod: earth\nspare: load, voltage: 12 V, power: 1 W\ntoaster: ac load, power: 1 kW"
    lines = BOARD + """
rod: bond: spare -> rod, wire: 10 AWG 1 m
link: bond: toaster.N -> rod, wire: 10 AWG 1 m
"""
    found = wiring(nodes, lines).wired
    assert {"inv", "kettle", "lamp", "back"} <= found and not {"spare", "toaster"} & found


ENDS = {
    "stud": ("stud: joint, rating: 50 A", "feed: bar -> stud, return: none, wire: 8 AWG 1 m"),
    "strip": ("strip: terminals, pins: 3", "feed: bar -> strip.1, return: none, wire: 8 AWG 1 m"),
    "spare": ("spare: fuse, rating: 5 A", "feed: bar -> spare.1, return: none, wire: 8 AWG 1 m"),
    "pair": ("pair: switch, rating: 30 A, poles: 2", "feed: bar -> pair.1, return: none, wire: 8 AWG 1 m"),
    "damp": ("damp: resistor, resistance: 1 Ω", "feed: bar -> damp.1, return: none, wire: 8 AWG 1 m"),
    "guard": ("guard: galvanic-isolator, rating: 30 A", "bond: back -> guard.1, wire: 8 AWG 1 m"),
    "meter": ("meter: shunt, rating: 50 A", "return: back -> meter.battery, wire: 8 AWG 1 m"),
    "pick": ("pick: selector, rating: 50 A", "feed: bar -> pick.1, return: none, wire: 8 AWG 1 m"),
    "valve": ("valve: diode, rating: 50 A", "feed: bar -> valve.1, return: none, wire: 8 AWG 1 m"),
}


@pytest.mark.parametrize("name", ENDS)
def test_what_leads_nowhere(name):
    node, line = ENDS[name]
    assert wiring(node, f"end: {line}\n").open == (name,)


QUIET = {
    "a spare bar": ("tail: bar, rating: 50 A", "feed: bar -> tail, return: none, wire: 8 AWG 1 m"),
    "a spare panel": ("tail: panel, rating: 50 A, pair: back", "feed: bar -> tail, return: none, wire: 8 AWG 1 m"),
    "a load": ("tail: load, voltage: 12 V, power: 5 W", "feed: bar -> tail, wire: 8 AWG 1 m"),
    "nothing at all on it": ("tail: fuse, rating: 5 A", "feed: bar -> switch 5 A -> lamp, return: none, wire: [8 AWG 1 m, 1 m]"),
    "a chassis": ("tail: chassis", "bond: back -> tail, wire: 8 AWG 1 m"),
    "a controller whose load port is spare": (
        "tail: solar charger, type: pwm, output: 10 A, max pv voltage: 50 V, load output: 10 A",
        "feed: tail -> fuse 10 A/bar, return: tail -> back, wire: 8 AWG 1 m"),
    "an inverter charger without shore": (
        "tail: inverter charger, power: 1 kW, charge: 10 A", "feed: bar/fuse 90 A -> tail, wire: 2 AWG 1 m"),
}


@pytest.mark.parametrize("case", QUIET)
def test_what_leads_nowhere_by_intent(case):
    node, line = QUIET[case]
    assert wiring(node, f"tail: {line}\n").open == ()


def test_an_inverter_charger_that_only_inverts_and_one_without_loads_lead_on():
    combi = "combi: inverter charger, power: 1 kW, charge: 10 A\nquay: shore, rating: 15 A\nkettle: ac load, power: 500 W"
    feed = "combi: feed: bar/fuse 90 A -> combi, wire: 2 AWG 1 m\n"
    assert wiring(combi, feed + "kettle: ac: combi/breaker 10 A -> kettle, wire: 14 AWG 1 m\n").open == ()
    assert wiring(combi, feed + "quay: ac: quay/breaker 2-pole 15 A -> combi.in, wire: 12 AWG 1 m\n").open == ()


def test_one_pole_of_two_that_leads_nowhere_and_a_junction_box_whose_earth_goes_no_further():
    """The second pole is wired through."""
    nodes = "pair: switch, rating: 30 A, poles: 2\nfan: load, voltage: 12 V, power: 5 W\n" + AC + "jb: joint, phases: 1"
    lines = BOARD + """
half: feed: bar -> pair.1, return: none, wire: 8 AWG 1 m
fan: feed: bar/fuse 5 A -> pair.3 -> fan, return: fan -> back, wire: [14 AWG 1 m, 1 m]
"""
    assert wiring(nodes, lines).open == ("pair",)
    through = AC.replace("power: 500 W", "power: 500 W, earth: no") + "jb: joint, phases: 1"
    on = BOARD.replace("board/breaker 10 A -> kettle, wire: 14 AWG 1 m", "board/breaker 10 A -> jb -> kettle, wire: [14 AWG 1 m, 1 m]")
    assert wiring(through, on).open == ()
    assert wiring(AC + "jb: joint, phases: 1", BOARD + "jb: ac: board/breaker 10 A -> jb, wire: 14 AWG 1 m\n").open == ("jb",)


def test_terminals_of_a_strip_one_by_one():
    strip = "strip: terminals, pins: 3\nfan: load, voltage: 12 V, power: 5 W"
    lines = "fan: feed: bar/fuse 5 A -> strip.1 -> fan, wire: [14 AWG 1 m, 1 m]\n"
    assert wiring(strip, lines).open == ()
    assert wiring(strip, lines + "half: feed: bar -> strip.2, return: none, wire: 14 AWG 1 m\n").open == ("strip",)


def test_what_is_named_for_all_on_a_net():
    one = wiring("tee: joint\nfan: load, voltage: 12 V, power: 5 W",
                 "tee: feed: bar/fuse 5 A -> tee, return: none, wire: 8 AWG 1 m\n"
                 "fan: feed: tee -> fan, return: fan -> back, wire: 8 AWG 1 m\n")
    assert one.root(("fan.+", "bar", "tee"), "other", "feed") == "bar"  # a line leads to the stud, none to what is before it
    assert one.root(("fan.+", "tee", "box.+"), "other", "feed") == "tee"  # lines lead to both
    assert one.root(("fan.+", "F1.1"), "other", "feed") == "other"
    alone = wiring("spare: bar, rating: 50 A")  # a line to the panel goes through its fuse
    assert alone.root(("box.+", "spare"), "other", "feed") == "spare"
    assert one.root(("tee", "back"), "other", "return") == "tee"
    assert one.root(("back", "bar"), "other", "return") == "bar"  # returns lead to the one


JOINED = """
fan: load, voltage: 12 V, power: 5 W
other: bank, chemistry: agm, voltage: 12 V, capacity: 80 Ah, pair: back
"""


@pytest.mark.parametrize(("device", "nets", "apart"), [
    ("fuse 10 A", True, True), ("switch 10 A", True, True), ("switch 10 A open", True, False),
    ("resistor 1 Ω", True, True), ("diode 10 A", True, True), ("isolator", True, False), ("tie.1", True, False),
    ("closed.1", True, True), ("galvanic-isolator 30 A", False, False),
])
def test_what_joins_and_what_separates(device, nets, apart):
    """Relays rest open unless they say otherwise."""
    nodes = JOINED + "isolator: isolator, rating: 50 A\ntie: relay, rating: 50 A, coil: 12 V\nclosed: relay, rating: 50 A, coil: 12 V, open: no"
    one = wiring(nodes, f"tie: feed: bar -> {device} -> other, return: none, wire: [8 AWG 1 m, 1 m]\n")
    assert one.nets.together("bar", "other.+") is nets and one.apart.together("bar", "other.+") is apart
    assert one.nets.together("bar", "F2.1") and one.apart.together("bar", "F2.1")  # bolted on


CONVERTER = """
step: converter, voltage: 12 V, output: 10 A, input voltage: 12 V, common: HOW
away: bar, rating: 20 A
fan: load, voltage: 12 V, power: 5 W
"""


@pytest.mark.parametrize(("how", "back"), [("negative", False), ("one", True), ("none", False), ("positive", False)])
def test_a_return_passes_no_converter_but_one_with_a_single_stud(how, back):
    lines = """
step: feed: bar/fuse 10 A -> step.in, wire: 12 AWG 1 m
fan: feed: step/fuse 5 A -> fan, return: step -> away, wire: 14 AWG 1 m
away: return: away -> fan, wire: 14 AWG 1 m
"""
    one = wiring(CONVERTER.replace("HOW", how), lines)
    assert one.back.together("fan.-", "back") is back
    assert not one.nets.together("fan.-", "back") and not one.apart.together("fan.-", "back")


@pytest.mark.parametrize(("way", "back"), [
    ("return: fan -> back, wire: 14 AWG 1 m", True), ("return: fan/back", True),
    ("return: fan -> resistor 1 Ω -> back, wire: [14 AWG 1 m, 1 m]", True),
    ("return: fan -> switch 5 A -> back, wire: [14 AWG 1 m, 1 m]", True),
    ("bond: fan.- -> back, wire: 14 AWG 1 m", False),
    ("return: fan -> galvanic-isolator 30 A -> back, wire: [14 AWG 1 m, 1 m]", False),
])
def test_what_a_return_may_pass(way, back):
    line = "fan: feed: bar/fuse 5 A -> fan, return: none, wire: 14 AWG 1 m\n"
    assert wiring("fan: load, voltage: 12 V, power: 5 W", line + f"way: {way}\n").back.together("fan.-", "back") is back
