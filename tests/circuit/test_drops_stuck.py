"""What would be lost where nothing can flow as it should: the line is so long that no voltage is left for constant power.

By hand with the formula of ISO 10133 Annex A, E = 0.0164 I L / S (read), and the currents at nominal voltage.
"""

from __future__ import annotations

import pytest

from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

BANK = "house: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 400 Ah\n"
SQUARE, FAR = 10, 60  # [mm²], [m] of the line that is too long


def drops(nodes: str, lines: str, head: str = ""):
    return Survey(system(netlist(BANK + nodes, lines, "iso", head))).drops.all


def lost(amps: float, metres: float = FAR, square: float = SQUARE) -> float:
    return 0.0164 * amps * 2 * metres / square


INVERTER = "inv: inverter, power: 2 kW, neutral: bonded\nbox: ac panel, rating: 20 A\n"
AC = """
inv: feed: house/fuse 200 A -> inv, wire: 10 mm² 60 m
box: ac: inv/breaker 10 A -> box, wire: 2.5 mm² 1 m
kettle: ac: box/breaker 10 A -> kettle, wire: 2.5 mm² 1 m
oven: ac: box/breaker 10 A -> oven, wire: 2.5 mm² 1 m
"""


@pytest.mark.parametrize(("kettle", "oven", "watts"), [
    ("power: 1 kW", "power: 0.5 kW", 1500), ("power: 1 kW, hours: 0.2", "power: 0.5 kW", 1500),
    ("power: 1 kW, hours: 0.2", "power: 0.5 kW, hours: 0.1", 1000),  # one at a time (common practice)
    ("power: 0.2 kW, count: 4", "power: 0.5 kW", 1300), ("power: 1.8 kW", "power: 0.5 kW", 2000),  # all that it gives
])
def test_an_inverter_takes_what_its_loads_ask(kettle, oven, watts):
    found = drops(f"{INVERTER}kettle: ac load, {kettle}\noven: ac load, {oven}", AC)["inv"]
    assert found.volts == pytest.approx(lost(watts / 0.9 / 12.8)) and found.least
    assert {wire.id: volts for wire, volts in found.lost} == pytest.approx({
        "inv:f0": found.volts / 2, "inv:r0": found.volts / 2})


def test_a_load_that_a_state_turns_off_is_not_counted():
    found = drops(f"{INVERTER}kettle: ac load, power: 1 kW\noven: ac load, power: 1 kW", AC, "states: {day: {oven: off}}")
    assert found["inv"].volts == pytest.approx(lost(1000 / 0.9 / 12.8))


def test_a_load_that_is_off_loses_what_the_others_lose_for_it():
    nodes = "tee: bar, rating: 90 A\nlamp: load, voltage: 12 V, power: 600 W\nfan: load, voltage: 12 V, power: 60 W"
    lines = ("tee: feed: house/fuse 90 A -> tee, return: house -> lamp, wire: 10 mm² 60 m\n"
             "lamp: feed: tee/fuse 60 A -> lamp, return: none, wire: 10 mm² 1 m\n"
             "fan: feed: tee/fuse 6 A -> fan, return: house -> fan, wire: 2.5 mm² 1 m")
    found = drops(nodes, lines, "states: {night: {fan: off}}")["fan"]
    assert {wire.id: volts for wire, volts in found.lost if wire.circuit == "fan"} == {"fan:f0": 0.0, "fan:r0": 0.0}


def test_what_a_solved_state_loses_more_counts_before_a_state_without_a_solution():
    """With the oven on the inverter loses more than while a lamp beside it cannot be carried."""
    nodes = f"{INVERTER}kettle: ac load, power: 0.1 kW\noven: ac load, power: 0.4 kW\nlamp: load, voltage: 12 V, power: 900 W\n"
    lines = AC.replace("60 m", "8 m") + "lamp: feed: house/fuse 90 A -> lamp, wire: 10 mm² 60 m"
    found = drops(nodes, lines, "states: {noon: {lamp: off}, night: {oven: off}}")
    assert found["inv"].when == "noon" and not found["inv"].least
    assert found["inv"].volts > lost(500 / 0.9 / 12.8, 8) > lost(100 / 0.9 / 12.8, 8)
    assert found["lamp"].volts == pytest.approx(lost(75)) and (found["lamp"].when, found["lamp"].least) == ("night", True)


@pytest.mark.parametrize("order", ["one: {pick: 1}, two: {pick: 2}", "two: {pick: 2}, one: {pick: 1}"])
def test_what_has_a_way_in_a_state_without_a_solution_only(order):
    nodes = f"{INVERTER}pick: selector, rating: 200 A\nkettle: ac load, power: 1 kW\noven: ac load, power: 1 kW"
    lines = AC.replace("house/fuse 200 A -> inv, wire: 10 mm² 60 m", "pick.2 -> inv, return: none, wire: 10 mm² 60 m")
    lines += "pick: feed: house/fuse 200 A -> pick, return: house -> inv, wire: 10 mm² 60 m"
    found = drops(nodes, lines, f"states: {{{order}}}")["inv"]
    assert found.least and found.when == "two" and found.volts == pytest.approx(1.5 * lost(2000 / 0.9 / 12.8))


def test_what_does_not_run_in_the_state_draws_nothing():
    """No engine runs: the charger rests, while a lamp cannot be carried."""
    nodes = ENGINE + "lamp: load, voltage: 12 V, power: 900 W\npanel: panel, rating: 20 A\nfan: load, voltage: 12 V, power: 12 W"
    lines = CHARGER % FAR + ("lamp: feed: house/fuse 90 A -> lamp, wire: 10 mm² 60 m\n"
                             "panel: feed: house/fuse 20 A -> panel, wire: 10 mm² 1 m\n"
                             "fan: feed: panel/fuse 3 A -> fan, wire: 2.5 mm² 1 m")
    found = drops(nodes, lines, "states: {night: {alt: off}}")
    assert found["lamp"].least and found["dcc"].volts == 0.0
    assert found["panel"].volts == pytest.approx(lost(1, 1))


@pytest.mark.parametrize(("between", "factor"), [("", 1.0), ("box: transformer, power: 2 kW\n", 0.95)])
def test_what_lies_between_an_inverter_and_its_load_takes_its_share(between, factor):
    """One of this size passes on some 95 %: common practice."""
    nodes = f"inv: inverter, power: 2 kW, neutral: bonded\n{between}kettle: ac load, power: 1 kW"
    lines = "inv: feed: house/fuse 200 A -> inv, wire: 10 mm² 60 m\n" + (
        "box: ac: inv/breaker 10 A -> box.in, wire: 2.5 mm² 1 m\nkettle: ac: box/breaker 10 A -> kettle, wire: 2.5 mm² 1 m"
        if between else "kettle: ac: inv/breaker 10 A -> kettle, wire: 2.5 mm² 1 m")
    assert drops(nodes, lines)["inv"].volts == pytest.approx(lost(1000 / factor / 0.9 / 12.8))


def test_the_loads_of_one_feeder_together():
    """Ten of 60 W: none of them alone would lose much."""
    nodes = "panel: panel, rating: 60 A\ninv: inverter, power: 1 kW, neutral: bonded\n"
    nodes += "".join(f"lamp-{n}: load, voltage: 12 V, power: 60 W\n" for n in range(10))
    lines = "inv: feed: house/fuse 99 A -> inv, wire: 35 mm² 1 m\npanel: feed: house/fuse 60 A -> panel, wire: 10 mm² 60 m\n"
    lines += "".join(
        f"lamp-{n}: feed: panel/fuse 6 A -> lamp-{n}, wire: 2.5 mm² 1 m\n" for n in range(10))
    found = drops(nodes, lines)
    assert found["panel"].volts == pytest.approx(lost(50)) and found["panel"].least
    assert found["lamp-3"].volts == pytest.approx(lost(50) + lost(5, 1, 2.5))


def test_a_load_for_moments_beside_what_runs_for_longer():
    nodes = ("panel: panel, rating: 90 A\nlamp: load, voltage: 12 V, power: 120 W\nhorn: load, voltage: 12 V, power: 480 W, "
             "hours: 0.1\nstep: load, voltage: 12 V, power: 360 W, hours: 0.1")
    lines = "panel: feed: house/fuse 90 A -> panel, wire: 10 mm² 60 m\n" + "".join(
        f"{one}: feed: panel/fuse 50 A -> {one}, wire: 2.5 mm² 1 m\n" for one in ("lamp", "horn", "step"))
    found = drops(nodes, lines)
    assert found["horn"].volts == pytest.approx(lost(10 + 40) + lost(40, 1, 2.5))
    assert found["step"].volts == pytest.approx(lost(10 + 30) + lost(30, 1, 2.5))


@pytest.mark.parametrize(("nodes", "lines", "name", "amps"), [
    ("step: converter, voltage: 24 V, output: 40 A\nradio: load, voltage: 24 V, power: 360 W, count: 2",
     "step: feed: house/fuse 60 A -> step.in, wire: 10 mm² 60 m\nradio: feed: step/fuse 40 A -> radio, wire: 10 mm² 1 m",
     "step", 720 / 0.9 / 12.8),
    ("thrust: drive, voltage: 12 V, power: 900 W", "thrust: feed: house/fuse 100 A -> thrust, wire: 10 mm² 60 m",
     "thrust", 900 / 0.9 / 12.8),
    ("winch: load, voltage: 12 V, current: 30 A, count: 2\nlamp: load, voltage: 12 V, power: 600 W",
     "tee: feed: house/fuse 100 A -> winch, wire: 10 mm² 60 m\nlamp: feed: house/fuse 80 A -> lamp, wire: 10 mm² 60 m",
     "winch", 60),
])
def test_what_else_draws(nodes, lines, name, amps):
    found = drops(nodes, lines)[name]
    assert found.volts == pytest.approx(lost(amps)) and found.least


ENGINE = """
start: battery, duty: starter, chemistry: agm, voltage: 12 V, capacity: 90 Ah
alt: alternator, voltage: 14 V, output: 120 A
dcc: dc charger, output: 30 A
"""
CHARGER = """
alt: feed: alt -> fuse 150 A/start, wire: 50 mm² 1 m
in: feed: start/fuse 50 A -> dcc.in, wire: 10 mm² %s m
out: feed: dcc -> fuse 40 A/house, wire: 10 mm² 1 m
"""


def test_a_charger_is_judged_though_what_rests_beside_it_has_a_solution():
    """30 A at the 14.2 V of the bank, common practice; at rest nothing flows."""
    found = drops(ENGINE, CHARGER % FAR)["dcc"]
    assert found.volts == pytest.approx(lost(30 * 14.2 / 0.9 / 12), rel=0.03) and found.least
    assert found.when == "engine running"


@pytest.mark.parametrize(("nodes", "lines", "name"), [
    (ENGINE, CHARGER, "dcc"), (f"{INVERTER}kettle: ac load, power: 1 kW\noven: ac load, power: 0.5 kW", AC.replace("60 m", "%s m"), "inv")])
def test_a_longer_line_is_never_better(nodes, lines, name):
    """Up to where it has no solution it loses more with every metre; from there on too."""
    found = [drops(nodes, lines % metres)[name] for metres in (1, 4, 8, 16, 32, 64, 128)]
    solved = [one.volts for one in found if not one.least]
    stuck = [one.volts for one in found if one.least]
    assert solved == sorted(solved) and stuck == sorted(stuck) and solved and stuck
    assert all(one.over > 0 for one in found if one.least)
