"""Bridges, blocks and cuts against networkx, against each other and against plain counting."""

from __future__ import annotations

from itertools import combinations

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from diagrammer.circuit import cuts
from diagrammer.circuit.mincut import minimum_cut


@st.composite
def multigraphs(draw, most: int = 9):
    """Small multigraphs with parallel edges; vertices "0" ..., keys "e0" ..."""
    size = draw(st.integers(2, most))
    pairs = draw(st.lists(st.tuples(st.integers(0, size - 1), st.integers(0, size - 1)), max_size=2 * size))
    graph = nx.MultiGraph()
    graph.add_nodes_from(map(str, range(size)))
    for number, (a, b) in enumerate(pairs):
        if a != b:
            graph.add_edge(str(a), str(b), f"e{number}")
    return graph


def without(graph, keys):
    left = nx.MultiGraph()
    left.add_nodes_from(graph)
    left.add_edges_from((a, b, k) for a, b, k in graph.edges(keys=True) if k not in keys)
    return left


def test_the_web_of_some_edges_on_some_terminals():
    graph = nx.MultiGraph([("a", "b", "one"), ("b", "a", "two"), ("b", "c", "three"), ("b", "b", "loop")])
    assert cuts.web(graph) == {
        "a": [("b", "one"), ("b", "two")], "b": [("a", "one"), ("a", "two"), ("c", "three")], "c": [("b", "three")]}
    kept = cuts.web(graph, lambda key, data: key != "one")
    assert kept == {"a": [("b", "two")], "b": [("a", "two"), ("c", "three")], "c": [("b", "three")]}
    assert list(cuts.web(graph, within=("c", "b")).items()) == [("c", [("b", "three")]), ("b", [("c", "three")])]


@given(multigraphs())
def test_bridges_part_the_graph(graph):
    parts = nx.number_connected_components(graph)
    slow = {k for _, _, k in graph.edges(keys=True) if nx.number_connected_components(without(graph, {k})) > parts}
    assert set(cuts.bridges(cuts.web(graph))) == slow


@given(multigraphs())
def test_islands_are_the_components(graph):
    gone = set(cuts.bridges(cuts.web(graph)))
    number = cuts.islands(cuts.web(graph), gone)
    for component in nx.connected_components(without(graph, gone)):
        assert len({number[v] for v in component}) == 1
    first = list(dict.fromkeys(number[v] for v in graph))
    assert first == list(range(nx.number_connected_components(without(graph, gone))))  # numbered as they are met


@given(multigraphs())
def test_reach_is_the_distance_and_the_tree_a_shortest_way(graph):
    gone = cuts.bridges(cuts.web(graph))[:1]
    web, left = cuts.web(graph), without(graph, gone)
    starts = ["0", "nowhere", *list(graph)[5:6]]
    away = nx.multi_source_dijkstra_path_length(left, set(starts) & set(graph))
    assert cuts.reach(web, starts, gone) == away
    came = cuts.tree(web, starts, gone)
    assert set(came) == set(away)
    for end in came:
        way = cuts.way(came, end)
        assert len(way) == away[end] + 1 and way[0] in starts and way[-1] == end
        assert all(left.has_edge(a, b) for a, b in zip(way, way[1:]))


def test_the_way_to_what_is_not_reached():
    assert cuts.way({"a": None}, "b") == ("b",)


def test_a_way_from_a_place_to_itself_has_no_edge():
    web = cuts.web(nx.MultiGraph([("a", "b", "one"), ("a", "b", "two")]))
    assert cuts.between(web, "a", "a") == frozenset()
    assert cuts.between(web, "a", "gone") == frozenset()


@given(multigraphs())
def test_blocks_are_the_biconnected_components(graph):
    keys = {k: frozenset((a, b)) for a, b, k in graph.edges(keys=True)}
    mine = sorted(sorted({tuple(sorted(keys[k])) for k in block}) for block in cuts.blocks(cuts.web(graph)))
    parts = nx.biconnected_component_edges(nx.Graph(graph))
    theirs = sorted(sorted({tuple(sorted(edge)) for edge in edges}) for edges in parts)
    assert mine == theirs
    assert sorted(k for block in cuts.blocks(cuts.web(graph)) for k in block) == sorted(keys)


@settings(max_examples=60)
@given(multigraphs(most=6))
def test_between_is_the_union_of_simple_paths(graph):
    """Here, in a test of few vertices, the simple paths may be listed."""
    found = cuts.between(cuts.web(graph), "0", "1")
    listed = {k for path in nx.all_simple_edge_paths(graph, "0", "1") for *_, k in path}
    assert found == listed


@given(multigraphs(), st.integers(1, 3))
def test_minimum_cut_is_least_and_nearest(graph, ends):
    vertices = list(graph)
    wrong, right = vertices[:1], [v for v in vertices[-ends:] if v != vertices[0]]
    web = cuts.web(graph)
    total, keys = minimum_cut(web, wrong, right, lambda key: 1)
    assert total == len(keys)
    assert not set(right) & set(cuts.reach(web, wrong, keys))
    alike = [set(c) for c in combinations([k for *_, k in graph.edges(keys=True)], len(keys))
             if not set(right) & set(cuts.reach(web, wrong, c))] if total <= 3 else []
    for fewer in combinations([k for *_, k in graph.edges(keys=True)], max(0, len(keys) - 1)) if keys else ():
        assert set(right) & set(cuts.reach(web, wrong, fewer))
        if total > 3:
            break
    near = set(cuts.reach(web, wrong, keys))
    assert all(near <= set(cuts.reach(web, wrong, other)) for other in alike)


@given(multigraphs())
def test_single_cuts_are_all_that_part_alone(graph):
    wrong, right = ["0"], [list(graph)[-1]]
    web = cuts.web(graph)
    joined = right[0] in cuts.reach(web, wrong)
    alone = {k for *_, k in graph.edges(keys=True) if right[0] not in cuts.reach(web, wrong, (k,))} if joined else set()
    found = cuts.single_cuts(web, wrong, right)
    assert set(found) == alone
    distance, ends = cuts.reach(web, wrong), {k: (a, b) for a, b, k in graph.edges(keys=True)}
    away = [min(distance[v] for v in ends[key]) for key in found]
    assert away == sorted(away)


@given(multigraphs(), st.data())
def test_cuts_of_unequal_edges(graph, data):
    """Against the maximum flow of networkx, parallel edges added up."""
    weight = {k: data.draw(st.sampled_from([1, 2, 3, 1000])) for *_, k in graph.edges(keys=True)}
    plain = nx.Graph()
    plain.add_nodes_from(graph)
    for a, b, k in graph.edges(keys=True):
        before = plain.get_edge_data(a, b, {"capacity": 0})["capacity"]
        plain.add_edge(a, b, capacity=before + weight[k])
    total, keys = minimum_cut(cuts.web(graph), ["0"], ["1"], weight.get)
    assert total == nx.minimum_cut_value(plain, "0", "1") == sum(weight[key] for key in keys)
    assert "1" not in cuts.reach(cuts.web(graph), ["0"], keys)


def test_one_side_on_both():
    graph = nx.MultiGraph([("a", "b", "one")])
    assert minimum_cut(cuts.web(graph), ["a"], ["a", "b"], lambda key: 1) == (float("inf"), ())


def test_heavy_edges_are_spared():
    graph = nx.MultiGraph([("a", "b", "joint"), ("b", "c", "one"), ("b", "c", "two"), ("c", "d", "inside")])
    weight = {"joint": 1000, "one": 1, "two": 1, "inside": float("inf")}
    assert minimum_cut(cuts.web(graph), ["a"], ["d"], weight.get) == (2, ("one", "two"))
    assert minimum_cut(cuts.web(graph), ["c"], ["d"], weight.get) == (float("inf"), ())


def test_a_long_chain_needs_no_recursion():
    graph = nx.MultiGraph()
    for number in range(20_000):
        graph.add_edge(str(number), str(number + 1), f"e{number}")
    web = cuts.web(graph)
    assert len(cuts.bridges(web)) == 20_000
    assert len(list(cuts.blocks(web))) == 20_000
    assert len(cuts.between(web, "0", "20000")) == 20_000
