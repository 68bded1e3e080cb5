"""Whether a device stands in time, and which: along the run of one conductor, whatever flows there.

A battery's post, practice abyc: 0.178 m bare, 1.829 m in a sheath (33 CFR 183.455(b) and 183.460(a), ABYC E-11
11.10.1.1.1); 2/0 AWG may have a device of 350 A.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.graph import build
from diagrammer.circuit.protection_ahead import Ahead, Lengths
from diagrammer.circuit.protection_away import FROM_POST, reach
from diagrammer.circuit.protection_web import Loom
from diagrammer.circuit.view import View
from tests.circuit.cases import netlist, system

NODES = """
bank: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, pair: back
back: bar, rating: 600 A
stud: joint, pair: back
far: joint, pair: back
bar: bar, rating: 600 A, pair: back
"""


def ahead(*lines: str) -> tuple[Ahead, dict]:
    """Of the feeds of some lines, each called "name: path, wire"; and their conductors."""
    made = system(netlist(NODES, "\n".join(line.replace(": ", ": feed: ", 1) + ", return: none" for line in lines)))
    graph = build(made)
    view = View(made, graph, graph)
    loom = Loom(view)
    web = loom.whole(next(one for one in loom.clusters() if "bank.+" in one.terminals))
    return Ahead(web, Carrying(view), Lengths(made), reach("abyc")), {wire.id: wire for wire in made.conductors}


def in_time(*lines: str) -> bool:
    found, wires = ahead(*lines)
    return found.in_time(wires["main:f0"], "bank.+", FROM_POST)


def conduit(metres: str) -> str:
    return f"wire: {{length: {metres}, size: 2/0 AWG, in: conduit}}"


@pytest.mark.parametrize(("lines", "stands"), [
    (["main: bank -> fuse 350 A -> bar, wire: [2/0 AWG 0.178 m, 1 m]"], True),
    (["main: bank -> fuse 350 A -> bar, wire: [2/0 AWG 0.179 m, 1 m]"], False),
    (["main: bank -> fuse 400 A -> bar, wire: [2/0 AWG 0.1 m, 1 m]"], False),
    (["main: bank -> fuse -> bar, wire: [2/0 AWG 0.1 m, 1 m]"], True),  # still to be chosen: it will suit
    (["main: bank -> switch 300 A -> fuse 350 A -> bar, wire: [2/0 AWG 0.1 m, 0.07 m, 1 m]"], True),
    (["main: bank -> switch 300 A -> fuse 350 A -> bar, wire: [2/0 AWG 0.1 m, 0.08 m, 1 m]"], False),
    # small enough for the thinnest on the way: 6 AWG may have 125 A
    (["main: bank -> switch 300 A -> fuse 130 A -> bar, wire: [2/0 AWG 0.1 m, 6 AWG 0.05 m, 1 m]"], False),
    (["main: bank -> switch 300 A -> fuse 125 A -> bar, wire: [2/0 AWG 0.1 m, 6 AWG 0.05 m, 1 m]"], True),
    (["main: bank -> switch 300 A -> fuse 130 A -> bar, wire: [6 AWG 0.1 m, 2/0 AWG 0.05 m, 1 m]"], False),
    # on another line only over lengths that are said; on its own whatever they are
    (["main: bank -> stud, wire: 2/0 AWG 0.1 m", "on: stud -> fuse 200 A -> bar, wire: [2/0 AWG 0.05 m, 1 m]"], True),
    (["main: bank -> stud, wire: 2/0 AWG 0.1 m", "on: stud -> fuse 200 A -> bar, wire: 2/0 AWG"], False),
    (["main: bank -> stud, wire: 2/0 AWG", "on: stud -> fuse 200 A -> bar, wire: [2/0 AWG 0.05 m, 1 m]"], False),
    (["main: bank -> fuse 200 A -> bar, wire: 2/0 AWG"], True),
    (["main: bank -> stud, wire: 2/0 AWG 0.1 m", "on: stud/fuse 200 A -> bar, wire: 2/0 AWG"], True),
    # a run that is not divided may lie on this side of the device as a whole
    (["main: bank -> fuse 200 A -> bar, wire: 2/0 AWG 0.17 m"], True),
    (["main: bank -> fuse 200 A -> bar, wire: 2/0 AWG 0.18 m"], False),
    (["main: bank -> stud, wire: 2/0 AWG 0.1 m", "on: stud -> fuse 200 A -> bar, wire: 2/0 AWG 0.07 m"], True),
    # the first device decides: what branches off behind it has no other
    (["main: bank -> fuse 400 A -> stud, wire: [2/0 AWG 0.05 m, 0.05 m]",
      "on: stud -> fuse 200 A -> bar, wire: [2/0 AWG 0.05 m, 1 m]"], False),
    # of two ways the shorter one
    (["main: bank -> stud, wire: 2/0 AWG 0.05 m", "long: stud -> far, wire: 2/0 AWG 0.1 m",
      "short: stud -> far, wire: 2/0 AWG 0.05 m", "on: far -> fuse 200 A -> bar, wire: [2/0 AWG 0.05 m, 1 m]"], True),
    (["main: bank -> stud, wire: 2/0 AWG 0.05 m", "long: stud -> far, wire: 2/0 AWG 0.1 m",
      "short: stud -> far, wire: 2/0 AWG 0.08 m", "on: far -> fuse 200 A -> bar, wire: [2/0 AWG 0.05 m, 1 m]"], False),
    # a longer one that is sheathed throughout may do where a shorter bare one does not
    ([f"main: bank -> stud, {conduit('0.1 m')}", f"long: stud -> far, {conduit('0.5 m')}",
      "short: stud -> far, wire: 2/0 AWG 0.05 m",
      "on: far -> fuse 200 A -> bar, wire: {hops: [2/0 AWG 0.3 m, 1 m], in: conduit}"], True),
    # back to the post it came from is nowhere
    (["main: bank -> stud, wire: 2/0 AWG 0.05 m", "round: bank/fuse 200 A -> stud, wire: 2/0 AWG 0.05 m"], False),
    (["main: bank -> stud, wire: 2/0 AWG 0.05 m"], False),
])
def test_a_device_in_time(lines, stands):
    assert in_time(*lines) is stands


def test_the_first_device_of_the_line_however_far():
    found, wires = ahead("main: bank -> stud -> fuse 400 A -> fuse 200 A -> bar, wire: [2/0 AWG 1 m, 2 m, 1 m, 1 m]",
                         "off: stud/fuse 100 A -> far, wire: 6 AWG 1 m")
    met = found.on_line(wires["main:f0"], "bank.+", FROM_POST)
    assert (met.rating, met.small, met.away.bare.length) == (400, False, 3.0)
    assert [wire.id for wire in met.wires] == ["main:f0", "main:f1"]
    assert found.on_line(wires["off:f0"], "far", FROM_POST).rating == 100
    assert found.on_line(wires["main:f3"], wires["main:f3"].a, FROM_POST) is None


def test_where_ways_part_and_meet_again_a_device_is_met_once():
    """However many ways lead to it: the cost must not double with each fork."""
    twice = [f"{name}: {way}, wire: 2/0 AWG 0.01 m" for name, way in (
        ("a", "stud -> far"), ("b", "stud -> far"), ("c", "far -> bar"), ("d", "far -> bar"))]
    found, wires = ahead("main: bank -> stud, wire: 2/0 AWG 0.01 m", *twice,
                         "on: bar/fuse 200 A -> back, wire: 2/0 AWG 1 m")
    assert len(list(found._walk(wires["main:f0"], "bank.+", FROM_POST, bounded=True))) == 1


RUN = "main: bank -> switch 300 A -> fuse 200 A -> bar, wire: 2/0 AWG 0.6 m"


@pytest.mark.parametrize(("line", "length", "known"), [
    ("main: bank -> fuse 200 A -> bar, wire: [2/0 AWG 0.2 m, 1 m]", (0.2, ""), True),
    ("main: bank -> bar, wire: 2/0 AWG 0.6 m", (0.6, ""), True),
    (RUN, (0.6, "main:f"), True),
    ("main: bank -> bar, wire: 2/0 AWG", (0.0, ""), False),
])
def test_how_long_a_conductor_is_at_worst(line, length, known):
    found, wires = ahead(line)
    assert found.lengths.of(wires["main:f0"]) == length
    assert found.lengths.known(wires["main:f0"]) is known


@pytest.mark.parametrize(("line", "some", "open_"), [
    (RUN, "0", 1), (RUN, "01", 1), (RUN, "012", 0),  # together they are the whole
    (RUN.replace("2/0 AWG 0.6 m", "[2/0 AWG 0.2 m, 0.2 m, 0.2 m]"), "01", 0),
    (RUN.replace("2/0 AWG 0.6 m", "2/0 AWG"), "01", 0),
])
def test_a_part_of_a_run_may_be_anything_up_to_the_whole(line, some, open_):
    found, wires = ahead(line)
    runs = found.lengths.undecided(tuple(wires[f"main:f{number}"] for number in some))
    assert [run.length for run in runs] == [0.6] * open_


def test_a_core_of_a_cable_is_sheathed():
    made = system(netlist("shore: shore, rating: 16 A\nheater: ac load, power: 1 kW",
                          "line: ac: shore -> heater, wire: {length: 3 m, size: 12 AWG, in: engine-space}"))
    found, wires = ahead(f"main: bank -> stud, {conduit('1 m')}", "on: stud -> bar, wire: 2/0 AWG 1 m")
    assert all(map(Lengths.sheathed, made.conductors)) and Lengths.sheathed(wires["main:f0"])
    assert not Lengths.sheathed(wires["on:f0"])
