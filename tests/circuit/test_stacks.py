"""What stands in series: which nets lie inside a stack, how high they stand, and where one is shorted."""

from __future__ import annotations

import pytest

from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.survey import Survey
from diagrammer.rules import RULES
from tests.circuit.cases import expect, netlist, system

BATTERY = "battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah"
NODES = f"b1: {BATTERY}\nb2: {BATTERY}\nb3: {BATTERY}\nstud: bar, rating: 200 A\nlamp: load, voltage: 12 V, power: 20 W"
LINK, LINK2 = "link: series: b1 -> b2, wire: 2 AWG 0.3 m", "link2: series: b2 -> b3, wire: 2 AWG 0.3 m"


def stacks(*lines: str, first: str = "", nodes: str = NODES) -> Stacks:
    return Stacks(Survey(system(netlist("\n".join((first, nodes)), "\n".join(lines)))).start)


def heights(of: Stacks, *terminals: str) -> list[tuple[float, float]]:
    return [of.height(terminal) for terminal in terminals]


def test_each_level_stands_on_those_below():
    of = stacks(LINK, LINK2)
    assert heights(of, "b1.-", "b2.-", "b3.-", "b1.+") == [(0, 0), (12, 12), (24, 24), (12, 12)]
    assert of.height(None) == (0, 0) and of.foot("b3.-") == of.foot("b2.-") == of.foot("b1.-") == "b1.-"
    assert of.inside(("b1.+", "b2.-")) and not of.inside(("b3.+",)) and not of.inside(("b1.-",))


@pytest.mark.parametrize(("lines", "inside"), [
    (("link: feed: b1.+ -> b2.-, return: none, wire: 2 AWG 0.3 m",), True),  # nothing else lands between
    (("one: feed: b1.+ -> stud, return: none, wire: 2 AWG 0.3 m", "two: feed: stud -> b2.-, return: none, wire: 2 AWG 0.3 m"), True),
    (("link: feed: b1.+ -> b2.-, return: none, wire: 2 AWG 0.3 m", "lamp: feed: b1 -> lamp, wire: 14 AWG 1 m"), False),
    ((LINK, "lamp: feed: b1 -> lamp, wire: 14 AWG 1 m"), True),  # written as a link: whatever taps it
    (("pair: feed: b1 -> b2, wire: 2 AWG 0.3 m",), False),
])
def test_what_lies_inside_a_stack(lines, inside):
    of = stacks(*lines)
    assert of.inside(("b1.+",)) is inside and bool(of.inner) is inside
    assert of.height("b2.-") == ((12, 12) if inside else (0, 0))


def test_a_charger_on_the_lower_battery_is_no_level():
    of = stacks(LINK, "one: feed: own -> b1, wire: 10 AWG 1 m", first="own: dc charger, output: 10 A, voltage: 14.4 V")
    assert of.height("b2.-") == (12, 12) and [name for name, *_ in of.cells] == ["b1", "b2", "b3"]


def test_modules_stand_on_each_other():
    of = stacks("link: series: r1 -> r2, wire: 10 AWG 1 m",
                nodes="r1: pv, power: 100 W, voc: 22 V, isc: 6 A\nr2: pv, power: 100 W, voc: 22 V, isc: 6 A\n"
                      "mill: wind, power: 300 W, phases: 3\nwheel: hydro, power: 300 W")
    assert [name for name, *_ in of.cells] == ["r1", "r2", "wheel"]  # the mill gives ac
    assert of.cells[2] == ("wheel", "wheel.+", "wheel.-", 0.0, 0.0)  # no voltage is said
    assert of.foot("r2.-") == "r1.-" and of.foot("r1.-") == "r1.-"


LAMP = "lamp: feed: b3/fuse 5 A -> lamp, return: b1 -> lamp, wire: 14 AWG 1 m"
RING = (LINK, LINK2, LAMP, "ring: feed: b3 -> b1.-, return: none, wire: 2 AWG 0.3 m")


def test_a_stack_that_is_shorted():
    of = stacks(*RING)
    assert of.shorted(("b1.-", "b3.+")) == ("b3", "b3.+", "b1.-")
    assert of.shorted(("b3.+",)) is None and of.shorted(("b1.-",)) is None
    assert of.shorted(("b1.+", "b2.-")) is None
    assert stacks("ring: feed: b1 -> b1.-, return: none, wire: 2 AWG 0.3 m").shorted(("b1.-", "b1.+")) is None  # no stack


@pytest.mark.parametrize("order", [("b1", "b2", "b3"), ("b3", "b2", "b1"), ("b2", "b3", "b1")])
def test_a_shorted_stack_in_any_order_of_the_file(order):
    nodes = "\n".join((*(f"{name}: {BATTERY}" for name in order), "lamp: load, voltage: 36 V, power: 20 W"))
    assert stacks(*RING, nodes=nodes).shorted(("b1.-", "b3.+")) == ("b3", "b3.+", "b1.-")
    expect(netlist(nodes, "\n".join(RING)), "short-circuit@ring:f0")
    expect(netlist(nodes, "\n".join(reversed(RING))), "short-circuit@ring:f0")  # where the lamp is the stack ends


@pytest.mark.parametrize(("links", "at"), [
    ((LINK, "back: series: b2 -> b1, wire: 2 AWG 0.3 m"), "back:s0"),
    (("back: series: b2 -> b1, wire: 2 AWG 0.3 m", LINK), "link:s0"),
    ((LINK, LINK2, "back: series: b3 -> b1, wire: 2 AWG 0.3 m"), "back:s0"),
])
def test_a_stack_that_closes_on_itself_is_shorted_by_the_last_link(links, at):
    """Batteries in a ring of series links drive each other: nothing limits the current (common practice)."""
    lone = "\n".join(f"{name}: {BATTERY}" for name in ("b1", "b2", "b3")[:len(links)])
    expect(netlist(lone, "\n".join(links)), f"short-circuit@{at}")


def test_a_ring_is_shorted_though_something_hangs_on_it():
    of = stacks(LINK, "lamp: feed: b2/fuse 5 A -> lamp, return: lamp -> b1.-, wire: 14 AWG 1 m", "back: series: b2 -> b1, wire: 2 AWG 0.3 m")
    assert of.height("b2.-") == (12, 12) and of.height("b1.-") == (0, 0) == of.height("b2.+")


BACK = "back: series: b2 -> b1, wire: 2 AWG 0.3 m"
PLAIN = "plain: feed: b2 -> b1.-, return: none, wire: 2 AWG 0.3 m"
BOLTED = "bolted: feed: b2.+/b1.-, return: none"


@pytest.mark.parametrize(("lines", "at"), [
    ((LINK, BACK, "lamp: feed: b1/fuse 5 A -> lamp, return: lamp -> b1.-, wire: 14 AWG 1 m"), "back:s0"),  # a lamp joins no cells
    ((LINK, BACK, "stub: feed: b1/fuse 5 A -> stud, return: none, wire: 14 AWG 1 m"), "back:s0"),
    ((LINK, PLAIN), "plain:f0"),  # nor need what closes a ring be written as a link
    ((PLAIN, LINK), "link:s0"),
    ((LINK, LINK2, "plain: feed: b3 -> b1.-, return: none, wire: 2 AWG 0.3 m"), "plain:f0"),
    ((BOLTED, LINK), "link:s0"),
    (("link: series: b1/b2", BOLTED), "b1"),  # without any conductor
])
def test_a_ring_is_shorted_by_what_joins_it_last(lines, at):
    used = [name for name in ("b1", "b2", "b3", "lamp", "stud") if any(name in line for line in lines)]
    kinds = {"lamp": "load, voltage: 12 V, power: 20 W", "stud": "bar, rating: 200 A"}
    nodes = "\n".join(f"{name}: {kinds.get(name, BATTERY)}" for name in used)
    expect(netlist(nodes, "\n".join(lines)), f"short-circuit@{at}")


def linked(*pairs: tuple[str, str]) -> tuple[str, ...]:
    return tuple(f"s{a}{b}: series: b{a} -> b{b}, wire: 2 AWG 0.3 m" for a, b in pairs)


@pytest.mark.parametrize("pairs", [("13", "31", "32", "24"), ("13", "32", "24", "31"), ("32", "24", "13", "31")])
def test_a_ring_is_shorted_though_a_stack_stands_on_it(pairs):
    """Of the four the first and the third drive each other; the second and the fourth stand on the first."""
    lines = linked(*pairs)
    of = stacks(*lines, nodes="\n".join(f"b{number}: {BATTERY}" for number in range(1, 5)))
    assert [of.height(f"b{number}.-") for number in range(1, 5)] == [(0, 0), (0, 0), (12, 12), (12, 12)]
    expect(netlist("\n".join(f"b{number}: {BATTERY}" for number in range(1, 5)), "\n".join(lines)), "short-circuit@s31:s0")


def test_two_rings_each_shorted_by_its_own_last_link():
    nodes = "\n".join(f"b{number}: {BATTERY}" for number in range(1, 5))
    expect(netlist(nodes, "\n".join(linked("12", "21", "43", "34"))), "short-circuit@s21:s0 short-circuit@s34:s0")


def test_batteries_that_a_load_parts_are_no_stack_that_is_shorted():
    """On each of the two nets a lamp or another landing says what is + and what -: one battery stands the wrong way round."""
    of = stacks("link: feed: b1 -> b2.-, return: none, wire: 2 AWG 0.3 m",
                "lamp: feed: b1/fuse 5 A -> lamp, return: lamp -> b1.-, wire: 14 AWG 1 m",
                "ring: feed: b2 -> b1.-, return: none, wire: 2 AWG 0.3 m", "other: series: b3 -> b4, wire: 2 AWG 0.3 m",
                nodes=f"{NODES}\nb4: {BATTERY}")
    assert of.inner and of.shorted(("b1.-", "b2.+")) is None


def test_a_shorted_stack_is_named_by_both_its_ends():
    text = netlist(f"b1: {BATTERY}\nb2: {BATTERY}", "\n".join((LINK, "back: series: b2 -> b1, wire: 2 AWG 0.3 m")))
    (one,) = RULES["short-circuit"].check(Survey(system(text)))
    assert one.message.startswith("this joins + of `b2` and - of `b1` with nothing but wire between")
