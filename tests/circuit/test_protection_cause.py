"""Where a report comes from: the devices that let the current through, its sources, the way from the first of them."""

from __future__ import annotations

import pytest

from diagrammer.circuit.protection import Overdrawn
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import netlist, system
from tests.circuit.test_protection_cases import FAT, PUMP, WINCH, house, pump

BANKS = "".join(f"bank-{n}: battery, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah\n" for n in (1, 2, 3))
SUNS = "".join(f"sun-{n}: solar charger, type: mppt, max pv voltage: 60 V, output: {a} A\n"
               for n, a in ((1, 35), (2, 5), (3, 80)))
BARS = "sub: bar, rating: 300 A\nfar: bar, rating: 300 A\npump: load, voltage: 12 V, power: 24 W\n"
TWO = "bank-1/fuse 90 A -> sub, 2 AWG", "bank-2/fuse 100 A -> sub, 2 AWG", "sub/fuse 10 A -> pump, 14 AWG"


def case(*lines: str, more: str = "") -> str:
    """Lines of a feed and a size each, in file order; what no line names is left out of it."""
    circuits = ""
    for number, line in enumerate(lines):
        path, _, size = line.partition(", ")
        circuits += f"l{number}: feed: {path}, return: none" + (f", wire: {size} 1 m\n" if size else "\n")
    nodes = [one for one in (BANKS + SUNS + BARS + more).splitlines() if one.split(":")[0] in circuits]
    return netlist("\n".join(nodes), circuits)


def causes(text: str) -> set[tuple]:
    return {(end.report.piece.wire.circuit, end.report.why, end.cause.devices, end.cause.sources, end.cause.path)
            for fact in Survey(system(text)).protection if isinstance(fact, Overdrawn) for end in fact.ends}


@pytest.mark.parametrize(("text", "expected"), [
    # a bank without a fuse is the cause, whatever comes through a device besides
    (case("bank-1 -> sub, 2/0 AWG", "bank-2/fuse 100 A -> sub, 2/0 AWG", "bank-1 -> pump, 14 AWG"), [
        ("l0", "bare", (), ("bank-1",), ("bank-1", "sub")), ("l2", "bare", (), ("bank-1",), ("bank-1", "pump"))]),
    # behind a device that is too large only what stands ahead of it counts
    (case("sun-3/fuse 100 A -> sub, 2/0 AWG", "sun-2/sub", "sub -> pump, 18 AWG"), [
        ("l2", "rating", ("F1",), ("sun-3",), ("sun-3", "F1", "sub", "pump"))]),
    # of what stands there a bank before what limits itself
    (case("sun-1 -> sub, 2/0 AWG", "bank-1/fuse 100 A -> sub, 2/0 AWG", "sub/fuse 60 A -> pump, 18 AWG"), [
        ("l2", "rating", ("F2",), ("bank-1",), ("bank-1", "F1", "sub", "F2", "pump"))]),
    # sources that limit themselves
    (case("sun-3 -> pump, 18 AWG"), [("l0", "limited", (), ("sun-3",), ("sun-3", "pump"))]),
    (case("sun-1/sub", "sun-3/sub", "sub -> pump, 18 AWG"), [
        ("l2", "limited", (), ("sun-1", "sun-3"), ("sun-1", "sub", "pump"))]),
    (case("sun-1 -> sub, 2/0 AWG", "sun-3 -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [
        ("l2", "limited", (), ("sun-1", "sun-3"), ("sun-1", "sub", "pump"))]),
    (case("bank-1 -> sub, 6 AWG", "sun-3 -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [  # l0 will get its own fuse
        ("l0", "bare", (), ("bank-1",), ("bank-1", "sub")), ("l2", "limited", (), ("sun-3",), ("sun-3", "sub", "pump"))]),
    # several devices together, those on this side only, and not those of loads
    (case(*TWO, "sub -> far, 6 AWG", "bank-3/fuse 100 A -> far, 2 AWG"), [
        ("l3", "sum", ("F2", "F1"), ("bank-2",), ("bank-2", "F2", "sub", "far"))]),
    (case("bank-3 -> sub, 2/0 AWG", *TWO[:2], "sub -> far, 6 AWG"), [  # also where a bank without a fuse is told of itself
        ("l0", "bare", (), ("bank-3",), ("bank-3", "sub")),
        ("l3", "sum", ("F2", "F1"), ("bank-2",), ("bank-2", "F2", "sub", "far"))]),
    # nor what a diode keeps back
    (case(*TWO, "sub -> far, 6 AWG", "sub -> iso.1, 2/0 AWG", "bank-3/fuse 100 A -> iso.2, 2/0 AWG",
          more="iso: isolator, type: diode, rating: 100 A\n"), [
        ("l3", "sum", ("F2", "F1"), ("bank-2",), ("bank-2", "F2", "sub", "far"))]),
    (case(*TWO, "sub -> far, 6 AWG", "sub/iso.1", "bank-3/fuse 100 A -> iso.2, 2/0 AWG",
          more="iso: isolator, type: diode, rating: 100 A\n"), [
        ("l3", "sum", ("F2", "F1"), ("bank-2",), ("bank-2", "F2", "sub", "far"))]),
    # a conductor that is told of itself will get a device that suits it, and counts no further
    (case("bank-3/fuse 200 A -> sub, 6 AWG", *TWO, "sub -> far, 6 AWG"), [
        ("l0", "rating", ("F1",), ("bank-3",), ("bank-3", "F1", "sub")),
        ("l0", "sum", ("F3", "F2"), ("bank-2",), ("bank-2", "F3", "sub", "F1")),
        ("l4", "sum", ("F3", "F2"), ("bank-2",), ("bank-2", "F3", "sub", "far"))]),
    (case("bank-1/fuse 200 A -> sub, 6 AWG", "sun-1/fuse 60 A -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [
        ("l0", "rating", ("F1",), ("bank-1",), ("bank-1", "F1", "sub")),
        ("l2", "rating", ("F2",), ("sun-1",), ("sun-1", "F2", "sub", "pump"))]),
    # one of several devices is too large: what stands behind another is no cause
    (case("bank-2/fuse 10 A -> sub, 4 AWG", "bank-1/fuse 60 A -> sub, 4 AWG", "sub -> pump, 18 AWG"), [
        ("l2", "rating", ("F2",), ("bank-1",), ("bank-1", "F2", "sub", "pump"))]),
    (case("sun-1/fuse 100 A -> sub, 2/0 AWG", "bank-1/fuse 60 A -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [
        ("l2", "rating", ("F2",), ("bank-1",), ("bank-1", "F2", "sub", "pump"))]),
    (case("bank-1/fuse 60 A -> sub, 2/0 AWG", "bank-2/fuse 60 A -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [
        ("l2", "rating", ("F1",), ("bank-1",), ("bank-1", "F1", "sub", "pump"))]),
    (case("bank-2/fuse -> sub, 2/0 AWG", "bank-1/fuse 60 A -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [  # will suit
        ("l2", "rating", ("F2",), ("bank-1",), ("bank-1", "F2", "sub", "pump"))]),
    (case("bank-2 -> fuse/sub, 2/0 AWG", "bank-1/fuse 60 A -> sub, 2/0 AWG", "sub -> pump, 18 AWG"), [
        ("l0", "bare", (), ("bank-2",), ("bank-2", "F1")),
        ("l2", "rating", ("F2",), ("bank-1",), ("bank-1", "F2", "sub", "pump"))]),
    (case("bank-1/fuse 60 A/sub", "sub -> pump, 18 AWG"), [
        ("l1", "rating", ("F1",), ("bank-1",), ("bank-1", "F1", "sub", "pump"))]),
    (case("bank-1/fuse 60 A -> sub, 2/0 AWG", "sub -> far, 2/0 AWG", "far -> pump, 18 AWG"), [
        ("l2", "rating", ("F1",), ("bank-1",), ("bank-1", "F1", "sub", "far", "pump"))]),
    # where there is more than one way round
    (case("bank-1/fuse 200 A -> sub, 2/0 AWG", "sub/fuse 60 A -> far, 2/0 AWG", "sub/fuse 100 A -> far, 2/0 AWG",
          "far -> pump, 18 AWG"), [
        ("l3", "rating", ("F3",), ("bank-1",), ("bank-1", "F1", "sub", "F3", "far", "pump"))]),
    (case("bank-1/fuse 200 A -> sub, 2/0 AWG", "sub/fuse 100 A -> far, 6 AWG", "sub/fuse 100 A -> far, 14 AWG",
          "far/fuse 10 A -> pump, 18 AWG"), [
        ("l2", "rating", ("F3",), ("bank-1",), ("bank-1", "F1", "sub", "F3", "far")),
        ("l2", "rating", ("F2",), ("bank-1",), ("bank-1", "F1", "sub", "F2", "far", "F3"))]),
    (case("bank-1/fuse 200 A -> sub, 2/0 AWG", "sub/fuse 100 A -> far, 2 AWG", "far/fuse 60 A -> mid, 10 AWG",
          "mid/fuse 40 A -> sub, 10 AWG", "bank-2/fuse 80 A -> mid, 2 AWG", "mid -> pump, 18 AWG",
          more="mid: bar, rating: 100 A\n"), [
        ("l2", "rating", ("F5",), ("bank-2",), ("bank-2", "F5", "mid", "F3")),
        ("l3", "rating", ("F1",), ("bank-1",), ("bank-1", "F1", "sub", "F4")),
        ("l5", "rating", ("F5",), ("bank-2",), ("bank-2", "F5", "mid", "pump"))]),
    (house("bank -> feed-bar", "2/0 AWG 0.05 m",
           circuits="beside: feed: bank/fuse 200 A -> feed-bar, return: none, wire: 2/0 AWG 0.05 m\n").replace(
        "feed-bar/fuse 10 A ->", "feed-bar -> fuse 10 A ->").replace("14 AWG 2 m", "[14 AWG 1 m, 1 m]"), [
        ("main", "bare", (), ("bank",), ("bank", "feed-bar")),
        ("lamp-1", "rating", ("F3",), ("bank",), ("bank", "F3", "feed-bar", "F1")),
        ("lamp-2", "rating", ("F3",), ("bank",), ("bank", "F3", "feed-bar", "F2"))]),
    (case("bank-1/fuse 90 A -> sub, 2 AWG", "bank-2/fuse 100 A -> sub, 2 AWG", "sun-2/sub", "sub/fuse 30 A -> mid, 8 AWG",
          "sub/fuse 30 A -> mid, 8 AWG", "sub -> far, 6 AWG", more="mid: bar, rating: 100 A\n"), [  # none stands on mid
        ("l5", "sum", ("F2", "F1"), ("bank-2",), ("bank-2", "F2", "sub", "far"))]),
    (case("bank-1/fuse 90 A -> sub, 2 AWG", "bank-2/fuse 100 A -> sub, 2 AWG", "sub/fuse 30 A -> mid, 8 AWG",
          "sub/fuse 30 A -> mid, 8 AWG", "sub -> far, 6 AWG", "mid -> iso.1, 2/0 AWG",
          "bank-3/fuse 100 A -> iso.2, 2/0 AWG",
          more="mid: bar, rating: 100 A\niso: isolator, type: diode, rating: 100 A\n"), [  # nor against a diode
        ("l4", "sum", ("F2", "F1"), ("bank-2",), ("bank-2", "F2", "sub", "far"))]),
    (case("bank-1/fuse 200 A -> sub, 2/0 AWG", "sub/fuse 60 A -> far, 8 AWG", "sub/fuse 50 A -> far, 8 AWG",
          "far/fuse 30 A -> mid, 8 AWG", "far/fuse 30 A -> mid, 8 AWG", "far -> pump, 10 AWG",
          more="mid: bar, rating: 100 A\n"), [  # of devices that all stand in rings those that lead to a source
        ("l5", "sum", ("F2", "F3"), ("bank-1",), ("bank-1", "F1", "sub", "F2", "far", "pump"))]),
    # what the winch asks for comes without a device, whatever else comes through one
    (house("bank -> feed-bar", nodes=PUMP + WINCH + SUNS.splitlines()[0] + "\n",
           circuits=FAT + pump(start="feed-bar") + "sun: feed: sun-1/fuse 60 A -> feed-bar, return: none, wire: 18 AWG 1 m\n"), [
        ("main", "bare", (), ("bank",), ("bank", "feed-bar")),
        ("sun", "rating", ("F4",), ("sun-1",), ("sun-1", "F4", "feed-bar")),
        ("sun", "asked", (), ("bank",), ("bank", "feed-bar", "F4")),
        ("pump", "asked", (), ("bank",), ("bank", "feed-bar", "pump"))]),
    (house("bank -> feed-bar", nodes=PUMP + WINCH + SUNS.splitlines()[0] + "\n",
           circuits=FAT + pump(start="feed-bar")
           + "sun: feed: sun-1/fuse 20 A -> feed-bar, return: none, wire: 4 AWG 1 m\n"), [
        ("main", "bare", (), ("bank",), ("bank", "feed-bar")),
        ("pump", "asked", (), ("bank",), ("bank", "feed-bar", "pump"))]),
    # what the winch asks for, behind a main that is too large itself
    (house("bank/fuse 400 A -> feed-bar", "6 AWG 1 m", nodes=PUMP + WINCH, circuits=FAT + pump(start="feed-bar")), [
        ("main", "rating", ("F1",), ("bank",), ("bank", "F1", "feed-bar")),
        ("pump", "asked", ("F1",), ("bank",), ("bank", "F1", "feed-bar", "pump"))]),
    # what the winch asks for is the cause of the pump's wire: the way leads over the main that is told of itself
    (house("bank -> feed-bar", nodes=PUMP + WINCH, circuits=FAT + pump(start="feed-bar")), [
        ("main", "bare", (), ("bank",), ("bank", "feed-bar")),
        ("pump", "asked", (), ("bank",), ("bank", "feed-bar", "pump"))]),
])
def test_causes(text, expected):
    assert causes(text) == set(expected), text
