"""What terminals lead to, and the length of a conductor."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest

from diagrammer.circuit.reach import length_of, neighbours, reached
from tests.circuit.cases import netlist, system

NODES = """
    bank: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
    S-1: switch, rating: 10 A
    lamp: load, voltage: 12 V, power: 20 W
"""


@dataclass
class Edge:
    a: str
    b: str


def test_neighbours_both_ways():
    assert neighbours((Edge("a", "b"), Edge("b", "c"), Edge("a", "b"))) == {
        "a": ["b", "b"], "b": ["a", "c", "a"], "c": ["b"]}


def test_reached_with_the_starts_among_them():
    near = neighbours((Edge("a", "b"), Edge("b", "c"), Edge("c", "f"), Edge("d", "e")))
    assert reached(("a",), near) == {"a", "b", "c", "f"}
    assert reached(("c", "e", "alone"), near) == {"a", "b", "c", "d", "e", "alone", "f"}


def lengths(wire: str) -> dict[str, float]:
    lines = f"main: feed: bank/fuse 10 A -> S-1 -> lamp, return: bank -> lamp, wire: {wire}"
    read = system(netlist(NODES, lines))
    return {wire.id: length_of(read, wire) for wire in read.conductors}


@pytest.mark.parametrize("wire, expected", [
    ("{feed: [14 AWG 1 m, 3 m], return: 14 AWG 5 m}", (1, 3, 5)),  # each said
    ("{feed: 14 AWG 4 m, return: 14 AWG 5 m}", (2, 2, 5)),  # a run whose division is not said
])
def test_length_of_a_conductor(wire, expected):
    assert tuple(lengths(wire).values()) == pytest.approx(expected)


def test_length_that_is_not_known():
    read = system(netlist(NODES, "main: feed: bank/fuse 10 A -> S-1 -> lamp, return: bank -> lamp, wire: 14 AWG 4 m"))
    assert length_of(read, replace(read.conductors[0], length=None, run="")) == 0
