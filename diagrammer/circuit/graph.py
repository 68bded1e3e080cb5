"""The netlist as a networkx MultiGraph of terminals.

Vertices are terminal ids with `node`, `port`, `pole`. Edge keys are strings: a conductor's id,
"joint 12", "inside Q1 0"; edges carry `form` ("conductor", "joint", or that of an Inside:
contact, overcurrent, shunt, diode, common, bond, resistor, capacitor), `side`, `core`, and the
model's own value as `value`. Built in file order, so iteration order is the file's.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

import networkx as nx

from diagrammer.netlist.model import System


def build(system: System) -> nx.MultiGraph:
    """The terminal graph of a system: O(terminals + conductors)."""
    graph = nx.MultiGraph()
    for terminal in system.terminals.values():
        graph.add_node(terminal.id, node=terminal.node, port=terminal.port, pole=terminal.pole)
    keyed = [(wire.id, "conductor", wire) for wire in system.conductors]
    keyed += [(f"joint {number}", "joint", joint) for number, joint in enumerate(system.joints)]
    keyed += [(f"inside {one.node} {number}", one.form, one) for number, one in enumerate(system.insides)]
    for key, form, one in keyed:
        graph.add_edge(one.a, one.b, key, form=form, side=one.side, core=one.core, value=one)
    return graph


def edges(graph: nx.MultiGraph) -> tuple[tuple[str, str, str, Mapping], ...]:
    """Every edge as (a, b, key, data), in the order of networkx, of a graph that changes no more: listed once.

    networkx's own view takes ten times as long, and ties the graph to itself, so that it outlives its last user.
    """
    if "edges" not in graph.graph:
        found, met = [], set()
        for a, near in graph.adjacency():
            for b, keyed in near.items():
                if b not in met:
                    found += [(a, b, key, data) for key, data in keyed.items()]
            met.add(a)
        graph.graph["edges"] = tuple(found)
    return graph.graph["edges"]


def around(graph: nx.MultiGraph, terminal: str) -> Iterator[tuple[str, Mapping]]:
    """(other terminal, data) of every edge at a terminal."""
    for other, keyed in graph.adj[terminal].items():
        for data in keyed.values():
            yield other, data


def without(graph: nx.MultiGraph, keys: Collection[str]) -> nx.MultiGraph:
    """The same terminals with the edges of these keys left out."""
    left = nx.MultiGraph()
    left.add_nodes_from(graph.nodes(data=True))
    left.add_edges_from(edge for edge in edges(graph) if edge[2] not in keys)
    return left
