"""Energy by the day: which banks feed the same loads, what these take, what the sun brings."""

from __future__ import annotations

import math

import pytest

from diagrammer.circuit.energy import chargers, charging_hours, households, sun
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system

NODES = """
bank: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah
lamp: load, voltage: 12 V, power: 24 W, hours: 5
fan: load, voltage: 24 V, power: 30 W, hours: 4
siren: load, voltage: 12 V, power: 50 W
up: converter, voltage: 24 V, output: 5 A, input voltage: 12 V, efficiency: 80 %
"""
LINES = """
lamp: feed: bank/fuse 10 A -> lamp, wire: 14 AWG 1 m
siren: feed: bank/fuse 10 A -> siren, wire: 14 AWG 1 m
up: feed: bank/fuse 20 A -> up.in, wire: 10 AWG 1 m
fan: feed: up/fuse 5 A -> fan, wire: 14 AWG 1 m
"""


def found(nodes: str = NODES, lines: str = LINES):
    view = Survey(system(netlist(nodes, lines))).start
    return view, households(view)


def test_use_counts_losses_and_leaves_out_what_says_no_hours():
    _, (one,) = found()
    assert one.use == pytest.approx(24 * 5 + 30 / 0.8 * 4) and one.draw == pytest.approx(one.use / 24)
    assert [part.load.name for part in one.parts] == ["lamp", "fan"] and one.names == ("bank",)


def test_hours_of_zero_are_said():
    _, (one,) = found(NODES.replace("hours: 5", "hours: 0"))
    assert [part.load.name for part in one.parts] == ["lamp", "fan"] and one.use == pytest.approx(150)


def test_a_lead_bank_lasts_half_its_capacity_and_a_bank_without_use_for_ever():
    """Slower than the twenty-hour rate no Peukert loss: half of 200 Ah, 12 V (common practice)."""
    _, (one,) = found()
    assert one.capacity == pytest.approx(1200) and one.lasts == pytest.approx(1200 / one.draw)
    _, (idle,) = found(NODES.replace(", hours: 5", "").replace(", hours: 4", ""))
    assert (idle.use, idle.draw, idle.lasts) == (0, 0, float("inf"))


def test_fast_use_leaves_less_by_peukert():
    """Peukert: C (I20 / I)^(n - 1); 1.11 for agm (common practice), or the data sheet's own."""
    nodes = NODES.replace("power: 24 W, hours: 5", "power: 480 W, hours: 24")
    for own, exponent in (("", 1.11), (", peukert: 1.3", 1.3)):
        _, (one,) = found(nodes.replace("200 Ah", f"200 Ah{own}") if own else nodes)
        amps = one.draw / 12
        assert one.capacity == pytest.approx(1200 * (10 / amps) ** (exponent - 1))


def test_banks_that_feed_the_same_loads_are_one_household():
    """Two banks over a selector; a third stands alone. The average current divides by capacity."""
    nodes = """
first: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah
alone: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
second: bank, chemistry: gel, voltage: 12 V, capacity: 100 Ah
start: battery, chemistry: flooded, voltage: 12 V, capacity: 80 Ah, duty: starter
which: selector, rating: 100 A
lamp: load, voltage: 12 V, power: 480 W, hours: 24
own: load, voltage: 12 V, power: 5 W, hours: 2
more: load, voltage: 12 V, power: 5 W, hours: 1
"""
    lines = """
first: feed: first/fuse 100 A -> which.1, return: none, wire: 4 AWG 1 m
second: feed: second/fuse 100 A -> which.2, return: second -> first, wire: 4 AWG 1 m
lamp: feed: which/fuse 60 A -> lamp, return: lamp -> first, wire: 6 AWG 1 m
own: feed: alone/fuse 5 A -> own, wire: 14 AWG 1 m
more: feed: second/fuse 5 A -> more, wire: 14 AWG 1 m
"""
    _, ones = found(nodes, lines)
    assert [one.names for one in ones] == [("alone",), ("first", "second")]
    assert [[part.load.name for part in one.parts] for one in ones] == [["own"], ["lamp", "more"]]
    both = ones[1]
    assert both.use == pytest.approx(480 * 24 + 5)
    amps = both.draw / 12
    rate = (15 / amps)  # of each bank alike: 300 Ah over 20 h are 15 A
    assert both.capacity == pytest.approx(12 * (100 * rate**0.11 + 50 * rate**0.15))


def test_a_bank_between_two_households_joins_them():
    nodes = "\n".join(f"b{n}: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah" for n in (1, 2, 3)) + """
left: load, voltage: 12 V, power: 5 W, hours: 1
right: load, voltage: 12 V, power: 6 W, hours: 1
lw: selector, rating: 50 A
rw: selector, rating: 50 A
"""
    lines = "".join(f"{side}{n}: feed: b{n}/fuse 10 A -> {side}w.{1 if n < 3 else 2}, return: none, wire: 12 AWG 1 m\n"
                    for side, n in (("l", 1), ("r", 2), ("l", 3), ("r", 3))) + """
left: feed: lw/fuse 5 A -> left, return: left -> b1, wire: 14 AWG 1 m
right: feed: rw/fuse 5 A -> right, return: right -> b2, wire: 14 AWG 1 m
back: return: b1 -> b3, wire: 12 AWG 1 m
back-2: return: b2 -> b3, wire: 12 AWG 1 m
"""
    _, (one,) = found(nodes, lines)
    assert one.names == ("b1", "b2", "b3") and [part.load.name for part in one.parts] == ["left", "right"]


SUNNY = NODES + """
sun: solar charger, type: mppt, max pv voltage: 100 V, output: OUT
roof: pv, power: 120 W, voc: 22 V, vmp: 18 V, isc: 7 A
mains: ac charger, output: 20 A
quay: shore, rating: 15 A
"""
CHARGED = LINES + """
sun: feed: sun -> fuse 40 A/bank, wire: 8 AWG 1 m
again: feed: sun -> fuse 40 A/bank, return: none, wire: 8 AWG 1 m
roof: feed: roof -> sun.pv, wire: 10 AWG 3 m
mains: feed: mains -> fuse 30 A/bank, wire: 8 AWG 1 m
quay: ac: quay/breaker 2-pole 15 A -> mains, wire: 12 AWG 3 m
"""


@pytest.mark.parametrize(("output", "watts"), [("30 A", 120 * 0.96), ("9.6 A", 115.2), ("9.5 A", 114), ("5 A", 60)])
def test_the_sun_brings_what_the_modules_or_the_controller_have(output, watts):
    """A tracking controller loses 4 %, charging agm 8 % (common practice); output at the bank's nominal 12 V."""
    view, (one,) = found(SUNNY.replace("OUT", output), CHARGED)
    assert [charge.node.name for charge in chargers(view, one)] == ["sun", "mains"]
    assert sun(view, one, 4.0) == pytest.approx(watts * 4 * 0.92)


def test_no_sun_without_modules():
    view, (one,) = found(SUNNY.replace("OUT", "30 A").replace("roof: pv, power: 120 W, voc: 22 V, vmp: 18 V, isc: 7 A", ""),
                         "\n".join(line for line in CHARGED.splitlines() if not line.startswith("roof")))
    assert sun(view, one, 4.0) == 0


def test_hours_to_charge_again_at_the_limit_of_the_battery():
    """40 A offered, 35 A taken per 100 Ah; agm takes 1.3 times what is missing, so from 26.9 Ah on it tapers, to 98 %.
    100 Ah missing of 200 Ah above the rest: (Q - turn) / I + ln(turn / left) / 1.3, all over 0.92 (common practice)."""
    view, (one,) = found(SUNNY.replace("OUT", "20 A"), CHARGED)
    given = chargers(view, one)
    assert sum(charge.amps for charge in given) == 40
    for missing, amps in ((600, 40), (1000, 40)):
        gone = 200 * (missing / 2400 + 0.02)
        hours = ((gone - amps / 1.3) / amps + math.log(amps / 1.3 / 4) / 1.3) / 0.92
        assert charging_hours(one, given, missing) == pytest.approx(hours)
    small = NODES.replace("200 Ah", "100 Ah") + SUNNY.partition("up:")[2].partition("\n")[2]
    view, (one,) = found(small.replace("OUT", "20 A"), CHARGED)
    gone = 100 * (300 / 1200 + 0.02)
    hours = ((gone - 35 / 1.3) / 35 + math.log(35 / 1.3 / 2) / 1.3) / 0.92
    assert charging_hours(one, chargers(view, one), 300) == pytest.approx(hours)


def test_no_hours_to_charge_without_chargers_or_of_more_than_a_bank_gives():
    view, (one,) = found(SUNNY.replace("OUT", "20 A"), CHARGED)
    given = chargers(view, one)
    assert charging_hours(one, (), 600) is None
    assert charging_hours(one, given, 1199) is not None  # agm gives half of 2400 Wh (common practice)
    assert charging_hours(one, given, 1200) is None


def test_no_hours_to_charge_of_two_banks():
    """Which of them gets how much is not known."""
    nodes = SUNNY.replace("OUT", "20 A") + "twin: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah\nwhich: relay, rating: 50 A, coil: 12 V\n"
    lines = CHARGED + "twin: feed: twin/fuse 50 A -> which.1 -> lamp, return: twin -> bank, wire: 8 AWG 1 m\n"
    view, (one,) = found(nodes, lines)
    assert one.names == ("bank", "twin")
    assert charging_hours(one, chargers(view, one), 600) is None
