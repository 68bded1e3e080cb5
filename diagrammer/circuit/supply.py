"""What storage and sources reach, and which of them anything uses.

A directed closure: from the live terminals of storage, sources and turbines along everything that
conducts (a diode one way), then out of each converter whose input is reached.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from functools import cached_property

import networkx as nx

from diagrammer.circuit.graph import edges
from diagrammer.circuit.nets import PASSES, WIRED
from diagrammer.circuit.view import View

MAKES = ("storage", "source", "raw")  # roles that give without being fed
CONDUCTS = (*WIRED, *PASSES, "resistor")


class Supply:
    """The closure over one graph of a view."""

    def __init__(self, view: View, graph: nx.MultiGraph):
        self.view = view
        self.forward: dict[str, list[tuple[str, str]]] = {terminal: [] for terminal in graph}
        self.backward: dict[str, list[tuple[str, str]]] = {terminal: [] for terminal in graph}
        for *_, key, data in edges(graph):
            if data["form"] not in CONDUCTS:
                continue
            for start, end in self._ways(data):
                self.forward[start].append((end, key))
                self.backward[end].append((start, key))

    def _ways(self, data: Mapping) -> tuple[tuple[str, str], ...]:
        """The directions in which an edge conducts: a diode one way, and a node's own switch from
        its input to its output."""
        one = data["value"]
        a, b = one.a, one.b
        if data["form"] == "diode":
            return ((a, b),)
        if data["form"] == "contact":
            node = self.view.system.nodes[one.node]
            ports = [self.view.system.terminals[t].port for t in (a, b)]
            pairs = node.kind.supplies(node.values)
            if tuple(ports) in pairs:
                return ((a, b),)
            if tuple(reversed(ports)) in pairs:
                return ((b, a),)
        return (a, b), (b, a)

    @cached_property
    def inputs(self) -> dict[str, tuple[str, ...]]:
        """The ports of each node that something is meant to reach; one of them is enough."""
        found = {}
        for name, node in self.view.system.nodes.items():
            pairs = node.kind.supplies(node.values)
            ports = tuple(dict.fromkeys(port for port, _ in pairs)) or (("main",) if node.kind.uses else ())
            if ports:
                found[name] = ports
        return found

    def fed(self, without: Iterable[str] = ()) -> tuple[frozenset[str], frozenset[str]]:
        """The terminals reached, and the nodes with an input among them. O(V + E)."""
        onward: dict[str, list[tuple[str, str]]] = {}
        for name in self.inputs:
            node = self.view.system.nodes[name]
            for start, end in node.kind.supplies(node.values):
                for terminal in self.view.hot(name, start):
                    onward.setdefault(terminal, []).append((name, end))
        starts = [t for name, give in self.view.gives if give.role in MAKES for t in self.view.hot(name, give.port)]
        met = self._spread(self.forward, starts, onward, frozenset(without))
        return met, frozenset(name for name, ports in self.inputs.items() if self._any(name, ports, met))

    def used(self, without: Iterable[str] = ()) -> frozenset[tuple[str, str]]:
        """The (node, port) of sources and converters from which something that uses power is
        reached. O(V + E)."""
        onward: dict[str, list[tuple[str, str]]] = {}
        starts = []
        for name, node in self.view.system.nodes.items():
            for start, end in node.kind.supplies(node.values):
                for terminal in self.view.hot(name, end):
                    onward.setdefault(terminal, []).append((name, start))
            if node.kind.uses:
                starts += self.view.hot(name, "main")
        met = self._spread(self.backward, starts, onward, frozenset(without))
        return frozenset((name, give.port) for name, give in self.view.gives if self._any(name, (give.port,), met))

    def missed(self, key: str, besides: Iterable[str] = ()) -> int:
        """How many lose their supply or their use when this edge is taken away, nodes `besides`
        not counted."""
        fed = self._all[0] - self.fed((key,))[1]
        used = self._all[1] - self.used((key,))
        return len(fed.difference(besides)) + sum(name not in besides for name, _ in used)

    @cached_property
    def _all(self) -> tuple[frozenset[str], frozenset[tuple[str, str]]]:
        return self.fed()[1], self.used()

    def _any(self, name: str, ports: Iterable[str], met: frozenset[str]) -> bool:
        return any(terminal in met for port in ports for terminal in self.view.hot(name, port))

    def _spread(self, web, starts, onward, without) -> frozenset[str]:
        met = dict.fromkeys(starts)
        queue = deque(met)
        while queue:
            terminal = queue.popleft()
            ahead = [end for end, key in web[terminal] if key not in without]
            ahead += [t for name, port in onward.get(terminal, ()) for t in self.view.hot(name, port)]
            for end in ahead:
                if end not in met:
                    met[end] = None
                    queue.append(end)
        return frozenset(met)
