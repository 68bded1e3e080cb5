"""Nets: terminals that stand at one potential.

Switches, relays, isolators and protection circuits count as closed.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping

import networkx as nx

from diagrammer.circuit.graph import edges

WIRED = ("conductor", "joint")
PASSES = ("contact", "overcurrent", "shunt", "diode")  # inside edges that keep the potential


def same_potential(data: Mapping) -> bool:
    return data["form"] in WIRED or data["form"] in PASSES


class Nets:
    """A partition of the terminals by the edges that `joins` accepts, but for those `without`, numbered in file order.

    Union-find with path halving: near-linear in the edges.
    """

    def __init__(self, graph: nx.MultiGraph, joins: Callable[[Mapping], bool] = same_potential,
                 without: Collection[str] = ()):
        parent = {terminal: terminal for terminal in graph}
        for a, b, key, data in edges(graph):
            if joins(data) and key not in without:
                a, b = root(parent, a), root(parent, b)
                if a != b:
                    parent[b] = a
        numbers: dict[str, int] = {}
        self._number: dict[str, int] = {}
        self._members: list[list[str]] = []
        for terminal in graph:
            number = numbers.setdefault(root(parent, terminal), len(numbers))
            self._number[terminal] = number
            if number == len(self._members):
                self._members.append([])
            self._members[number].append(terminal)

    def __getitem__(self, terminal: str) -> int:
        return self._number[terminal]

    def __len__(self) -> int:
        return len(self._members)

    def __iter__(self) -> Iterator[tuple[str, ...]]:
        return (tuple(members) for members in self._members)

    def members(self, number: int) -> tuple[str, ...]:
        return tuple(self._members[number])

    def together(self, a: str, b: str) -> bool:
        return self._number[a] == self._number[b]


def nets_of(graph: nx.MultiGraph) -> Nets:
    """The nets of one potential of a graph that changes no more: made once."""
    if "nets" not in graph.graph:
        graph.graph["nets"] = Nets(graph)
    return graph.graph["nets"]


def root(parent: dict, item):
    while parent[item] != item:
        parent[item] = parent[parent[item]]
        item = parent[item]
    return item
