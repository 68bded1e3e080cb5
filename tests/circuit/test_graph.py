"""The terminal graph: every conductor, joint and inside edge at its two terminals."""

from __future__ import annotations

from diagrammer.circuit.graph import around, build, edges, without
from tests.circuit.cases import system
from tests.circuit.stock import Case

READ = system(Case().load("lamp").line("twin", "feed: bank -> feed-bar, return: none, wire: 6 AWG 1 m").text)


def test_every_edge_stands_between_its_terminals():
    graph = build(READ)
    values = {wire.id: wire for wire in READ.conductors}
    values |= {f"joint {number}": joint for number, joint in enumerate(READ.joints)}
    values |= {f"inside {one.node} {number}": one for number, one in enumerate(READ.insides)}
    found = {key: (a, b, data) for a, b, key, data in edges(graph)}
    assert set(found) == set(values)
    for key, (a, b, data) in found.items():
        value = values[key]
        assert {a, b} == {value.a, value.b} and data["value"] is value
        assert (data["side"], data["core"]) == (value.side, value.core)
        assert data["form"] == getattr(value, "form", "joint" if key.startswith("joint") else "conductor")


def test_every_terminal_is_a_vertex_that_knows_its_node():
    graph = build(READ)
    assert list(graph) == list(READ.terminals)
    assert graph.nodes["bank.+"] == {"node": "bank", "port": "main", "pole": "+"}
    assert without(graph, ()).nodes["bank.+"] == graph.nodes["bank.+"]


def test_edges_come_in_the_order_of_networkx_and_once():
    graph = build(READ)
    graph.add_edge("feed-bar", "feed-bar", "loop")
    assert edges(graph) == tuple(graph.edges(keys=True, data=True))
    assert edges(graph) is edges(graph)


def test_around_a_terminal_all_that_lands_there():
    graph = build(READ)
    found = [(other, data["value"]) for other, data in around(graph, "feed-bar")]
    ends = [(one.b if one.a == "feed-bar" else one.a, one)
            for one in (*READ.conductors, *READ.joints) if "feed-bar" in (one.a, one.b)]
    assert sorted(other for other, _ in found) == sorted(other for other, _ in ends)
    assert all(one in found for one in ends)


def test_without_some_edges_every_terminal_stays():
    graph = build(READ)
    left = without(graph, ("main:f0", "joint 0"))
    assert list(left) == list(graph)
    assert {key for *_, key in left.edges(keys=True)} == {key for *_, key in graph.edges(keys=True)} - {
        "main:f0", "joint 0"}
