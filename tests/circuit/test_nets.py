"""Nets and the positions that join them differently."""

from __future__ import annotations

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagrammer.circuit.graph import build
from diagrammer.circuit.nets import Nets, nets_of
from diagrammer.circuit.positions import CAP, Positions
from tests.circuit.cases import netlist, system

BANKS = """
    b1: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
    b2: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah
    returns: bar, rating: 100 A
"""


@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 12), st.booleans()), max_size=30))
def test_nets_are_connected_components(edges):
    graph = nx.MultiGraph()
    graph.add_nodes_from(map(str, range(13)))
    for a, b, joins in edges:
        graph.add_edge(str(a), str(b), joins=joins)
    nets = Nets(graph, lambda data: data["joins"])
    kept = nx.Graph((a, b) for a, b, data in graph.edges(data=True) if data["joins"])
    kept.add_nodes_from(graph)
    assert sorted(map(sorted, nets)) == sorted(map(sorted, nx.connected_components(kept)))
    assert all(nets.together(a, b) == (nets[a] == nets[b]) for a, b, _ in graph.edges(keys=True))


def test_nets_are_numbered_as_their_first_terminals_come():
    graph = nx.MultiGraph()
    graph.add_nodes_from("abcde")
    for a, b, key in (("e", "b", "one"), ("a", "c", "two"), ("c", "d", "three")):
        graph.add_edge(a, b, key, form="joint")
    nets = Nets(graph)
    assert [nets[terminal] for terminal in "abcde"] == [0, 1, 0, 0, 1] and len(nets) == 2
    assert list(nets) == [("a", "c", "d"), ("b", "e")]
    assert nets.members(1) == ("b", "e")
    assert nets.together("a", "d") and not nets.together("a", "b")
    assert list(Nets(graph, without=("three",))) == [("a", "c"), ("b", "e"), ("d",)]
    assert list(nets_of(graph)) == list(nets) and nets_of(graph) is nets_of(graph)


@pytest.mark.parametrize("form, one", [
    ("conductor", True), ("joint", True), ("contact", True), ("overcurrent", True), ("shunt", True), ("diode", True),
    ("common", False), ("bond", False), ("resistor", False), ("capacitor", False),
])
def test_what_keeps_the_potential(form, one):
    graph = nx.MultiGraph()
    graph.add_edge("a", "b", "key", form=form)
    assert Nets(graph).together("a", "b") == one


def live(text: str) -> list[tuple[str, ...]]:
    read = system(text)
    return [tuple(sorted(net.terminals)) for net in Positions(build(read), read).live()]


def with_plus(nets: list[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Which of the banks each net with a bank's + joins to the common side."""
    return sorted({tuple(t for t in net if t in ("b1.+", "b2.+", "q.common")) for net in nets if "q.common" in net})


def selector(positions: str = "", head: str = "") -> str:
    nodes = BANKS + f"q: selector, rating: 100 A{positions}\n lamp: load, voltage: 12 V, power: 5 W"
    return netlist(nodes, """
        m1: feed: b1/fuse 60 A -> q.1, return: b1 -> returns, wire: 6 AWG 1 m
        m2: feed: b2/fuse 60 A -> q.2, return: b2 -> returns, wire: 6 AWG 1 m
        lamp: feed: q/fuse 5 A -> lamp, return: returns -> lamp, wire: 14 AWG 1 m
    """, head=head)


def test_selector_in_every_position():
    found = with_plus(live(selector()))
    assert found == [("b1.+", "b2.+", "q.common"), ("b1.+", "q.common"), ("b2.+", "q.common"), ("q.common",)]


def test_selector_that_never_joins_both():
    found = with_plus(live(selector(", positions: {off: none, 1: 1+common, 2: 2+common}")))
    assert found == [("b1.+", "q.common"), ("b2.+", "q.common"), ("q.common",)]


def test_only_the_states_of_the_file():
    found = with_plus(live(selector(head="states: {at anchor: {q: 2}}")))
    assert found == [("b2.+", "q.common")]


def test_interlocked_devices_are_never_both_closed():
    nodes = BANKS + "bar: bar, rating: 100 A, pair: returns\n lamp: load, voltage: 12 V, power: 5 W"
    circuits = """
        m1: feed: b1/breaker Q-1 60 A -> bar, return: b1 -> returns, wire: 6 AWG 1 m
        m2: feed: b2/breaker Q-2 60 A -> bar, return: b2 -> returns, wire: 6 AWG 1 m
        lamp: feed: bar/fuse 5 A -> lamp, wire: 14 AWG 1 m
    """
    nets = live(netlist(nodes, circuits, head="interlocks: [[Q-1, Q-2]]"))
    joined = {tuple(t for t in net if t in ("b1.+", "b2.+")) for net in nets if "bar" in net}
    assert joined == {("b1.+",), ("b2.+",)}
    free = live(netlist(nodes, circuits))
    assert any({"b1.+", "b2.+"} <= set(net) for net in free)


def test_combinations_are_capped():
    """Nine selectors on one net have 4 ** 9 combinations; each position is still looked at."""
    nodes = BANKS + "bar: bar, rating: 100 A, pair: returns\n"
    nodes += "\n".join(f"q{n}: selector, rating: 100 A" for n in range(9))
    circuits = ["m1: feed: b1/fuse 60 A -> bar, return: b1 -> returns, wire: 6 AWG 1 m"]
    circuits += [f"c{n}: feed: bar -> q{n}.1, return: none, wire: 6 AWG 1 m" for n in range(9)]
    circuits += [f"d{n}: feed: q{n}.2 -> bar, return: none, wire: 6 AWG 1 m" for n in range(9)]
    read = system(netlist(nodes, "\n".join(circuits)))
    cluster = next(c for c in Positions(build(read), read).clusters() if "bar" in c.terminals)
    assert 9 * 3 < len(cluster.combinations) <= CAP
    for number in range(9):
        assert {one.positions[f"q{number}"] for one in cluster.combinations} == {"off", "1", "2", "both"}
