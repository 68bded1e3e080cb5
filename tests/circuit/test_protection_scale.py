"""Cost: ten times the circuits must not take a hundred times as long."""

from __future__ import annotations

import gc
import time

import pytest

from diagrammer.circuit import measured, protection
from diagrammer.circuit.graph import build
from diagrammer.circuit.view import View
from tests.circuit.cases import netlist, system

HEAD = """
bank: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, pair: return-bar
meter: shunt, rating: 500 A
feed-bar: bar, rating: 600 A, pair: return-bar
return-bar: bar, rating: 600 A
"""
MAIN = ("main: feed: bank/fuse 200 A -> feed-bar, return: bank -> meter -> return-bar, "
        "wire: {feed: 2/0 AWG 1 m, return: [2/0 AWG 0.3 m, 0.3 m]}\n")
WAYS = 25  # loads on one panel


def panels(count: int, fuse: str = "/fuse 5 A", back: str = "") -> View:
    """`count` lines behind panels on one bar."""
    nodes = [f"p{n}: panel, rating: 60 A, pair: return-bar" for n in range(-(-count // WAYS))]
    lines = [f"p{n}: feed: feed-bar/fuse 40 A -> p{n}, wire: 8 AWG 2 m" for n in range(len(nodes))]
    for n in range(count):
        nodes.append(f"l{n}: load, voltage: 12 V, power: 5 W")
        wire = "{feed: [16 AWG 2 m, 1 m], return: 16 AWG 3 m}" if back else "[16 AWG 2 m, 1 m]"
        way_back = f", return: {back} -> l{n}" if back else ""
        lines.append(f"l{n}: feed: p{n // WAYS}{fuse} -> switch 5 A -> l{n}{way_back}, wire: {wire}")
    return view(nodes, lines)


def chain(count: int) -> View:
    """`count` joints in a row, a fused load on each."""
    nodes, lines = [f"j{n}: joint, pair: return-bar" for n in range(count)], []
    for n in range(count):
        nodes.append(f"l{n}: load, voltage: 12 V, power: 5 W")
        lines.append(f"k{n}: feed: {f'j{n - 1}' if n else 'feed-bar'} -> j{n}, wire: 2/0 AWG 1 m")
        lines.append(f"l{n}: feed: j{n}/fuse 5 A -> l{n}, wire: 16 AWG 2 m")
    return view(nodes, lines)


def view(nodes: list[str], lines: list[str]) -> View:
    made = system(netlist(HEAD + "\n".join(nodes), MAIN + "\n".join(lines)))
    graph = build(made)
    return View(made, graph, graph)


def seconds(check, at: View) -> tuple[float, int]:
    """Processor time of a check [s], the collector off as in the program, and how much it found."""
    gc.collect()
    gc.disable()
    try:
        start = time.process_time()
        found = check.find(at)
        return time.process_time() - start, len(found)
    finally:
        gc.enable()


def test_a_thousand_and_ten_thousand_circuits():
    for check in (protection, measured):
        few, many = (seconds(check, panels(count)) for count in (1_000, 10_000))
        assert few[1] == many[1] == 0
        assert many[0] < 40 * few[0], (check.__name__, few, many)


@pytest.mark.parametrize("check, make, faults", [
    (protection, chain, 0),
    (protection, lambda count: panels(count, fuse=""), 1),  # 40 A on 16 AWG, one fault a line
    (measured, lambda count: panels(count, back="bank"), 1),
], ids=["a long chain", "a fault in every line", "every return on the post"])
def test_the_cost_is_near_linear_whatever_the_shape(check, make, faults):
    few, many = (seconds(check, make(count)) for count in (400, 3_200))
    assert (few[1], many[1]) == (400 * faults, 3_200 * faults)
    assert many[0] < 32 * few[0], (few, many)  # eight times the size; the square would be 64
