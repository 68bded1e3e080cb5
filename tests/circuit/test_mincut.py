"""The lightest cut where flows must be taken back, and where a side is not in the web."""

from __future__ import annotations

import networkx as nx

from diagrammer.circuit import cuts
from diagrammer.circuit.mincut import minimum_cut


def test_what_first_flowed_over_an_edge_gives_way_to_more_from_its_other_end():
    """The shortest way goes s a b t; in the end one unit flows from b to a, so two must turn round."""
    graph = nx.MultiGraph()
    weight = {}
    for path, units in (("sabt", 1), ("axyt", 2), ("suvb", 2)):
        for a, b in zip(path, path[1:]):
            graph.add_edge(a, b, a + b)
            weight[a + b] = units
    assert minimum_cut(cuts.web(graph), ["s"], ["t"], weight.get) == (3, ("sa", "su"))
    weight["su"] = 9  # and then the cut moves on
    assert minimum_cut(cuts.web(graph), ["s"], ["t"], weight.get) == (3, ("sa", "uv"))


def test_what_is_not_in_the_web_needs_no_cut():
    web = cuts.web(nx.MultiGraph([("a", "b", "one")]))
    assert minimum_cut(web, ["elsewhere", "a"], ["b"], lambda key: 1) == (1, ("one",))
    assert minimum_cut(web, ["elsewhere"], ["b"], lambda key: 1) == (0.0, ())
    assert minimum_cut(web, ["a"], ["elsewhere"], lambda key: 1) == (0.0, ())
