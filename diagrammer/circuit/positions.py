"""Positions: what joins different terminals at different times, and the nets that come of it.

A multi-way node (selector, transfer, the changeover inside an inverter charger) and an interlock
are looked at in every position; positions multiply only within one cluster, up to CAP.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import product

import networkx as nx

from diagrammer.circuit.graph import edges
from diagrammer.circuit.nets import Nets, nets_of, root, same_potential
from diagrammer.frozen import frozen
from diagrammer.netlist.model import System

CAP = 256  # combinations looked at in one cluster


@frozen
class Chooser:
    """Something that joins different terminals in different positions: a multi-way node, or an
    interlock, whose positions are the members that may be closed."""

    name: str
    positions: tuple[str, ...]


@frozen
class Combination:
    """One position of every chooser of a cluster: `positions` by chooser name, `open` the keys
    of the inside edges that do not conduct then."""

    positions: Mapping[str, str]
    open: frozenset[str]


@frozen
class LiveNet:
    """Terminals that are one net in some combination of positions."""

    terminals: tuple[str, ...]
    combination: Combination


class Positions:
    """Which inside edges conduct in which positions, and the nets that come of it."""

    def __init__(self, graph: nx.MultiGraph, system: System):
        self.graph, self.system = graph, system
        self.choosers: dict[str, Chooser] = {}
        self.needs: dict[str, list[tuple[str, frozenset[str]]]] = {}  # edge key: (chooser, positions)
        inside = [(key, data["value"]) for *_, key, data in edges(graph)
                  if key.startswith("inside ")]
        self._multi_way(inside)
        self._interlocks(inside)

    def _multi_way(self, inside) -> None:
        for name, node in self.system.nodes.items():
            words = tuple(node.kind.positions(node.values)) if node.kind.sort == "end" else ()
            if len(words) > 1:
                self.choosers[name] = Chooser(name, words)
        for key, value in inside:
            if value.positions and value.node in self.choosers:
                self.needs.setdefault(key, []).append((value.node, frozenset(value.positions)))

    def _interlocks(self, inside) -> None:
        for number, members in enumerate(self.system.interlocks):
            name = f"interlock {number}"
            self.choosers[name] = Chooser(name, tuple(members))
            for key, value in inside:
                if value.node in members:
                    self.needs.setdefault(key, []).append((name, frozenset((value.node,))))

    def open_in(self, positions: Mapping[str, str], keys: Iterable[str] | None = None) -> frozenset[str]:
        """The keys of the inside edges that do not conduct with the choosers so."""
        return frozenset(
            key for key in (self.needs if keys is None else keys)
            if any(name in positions and positions[name] not in closed for name, closed in self.needs[key])
        )

    def clusters(self, joins: Callable[[Mapping], bool] = same_potential) -> Iterator[Cluster]:
        """Everything that some positions can join, in file order, with its combinations."""
        keyed: dict[int, list[tuple[str, str, str]]] = {}
        whole = nets_of(self.graph) if joins is same_potential else Nets(self.graph, joins)
        for a, b, key in self._positioned(joins):
            keyed.setdefault(whole[a], []).append((a, b, key))
        for number, terminals in enumerate(whole):
            yield Cluster(terminals, tuple(self._combinations(keyed.get(number, ()))), tuple(keyed.get(number, ())))

    def _positioned(self, joins) -> Iterator[tuple[str, str, str]]:
        for a, b, key, data in edges(self.graph):
            if key in self.needs and joins(data):
                yield a, b, key

    def _combinations(self, edges) -> Iterator[Combination]:
        if not edges:
            yield CLOSED
            return
        keys = [key for *_, key in edges]
        names = list(dict.fromkeys(name for key in keys for name, _ in self.needs[key]))
        ways = [self.choosers[name].positions for name in names]
        size = 1
        for way in ways:
            size *= len(way)
        choices = product(*ways) if size <= CAP else _one_at_a_time(ways)
        for words in choices:
            positions = dict(zip(names, words))
            if self._possible(positions):
                yield Combination(positions, self.open_in(positions, keys))

    def _possible(self, positions: Mapping[str, str]) -> bool:
        """Whether the file's `states`, where it has some, allow these positions."""
        states = self.system.states
        return not states or any(
            all(state.get(name, word) == word for name, word in positions.items()) for state in states.values()
        )

    def live(self, joins: Callable[[Mapping], bool] = same_potential) -> Iterator[LiveNet]:
        """Every net in every combination; one that two combinations share comes once for each set
        of positions of the choosers that touch it."""
        positioned = {key for *_, key in self._positioned(joins)}
        fixed = Nets(self.graph, joins, positioned)
        for cluster in self.clusters(joins):
            if not cluster.edges:
                yield LiveNet(cluster.terminals, CLOSED)
            else:
                yield from _live(cluster, fixed)


CLOSED = Combination({}, frozenset())


@frozen
class Cluster:
    """`edges` are the inside edges (terminal, terminal, key) whose position matters here."""

    terminals: tuple[str, ...]
    combinations: tuple[Combination, ...]
    edges: tuple[tuple[str, str, str], ...] = ()


def _live(cluster: Cluster, fixed: Nets) -> Iterator[LiveNet]:
    numbers = list(dict.fromkeys(fixed[terminal] for terminal in cluster.terminals))
    seen = set()
    for combination in cluster.combinations:
        parent = {number: number for number in numbers}
        for a, b, key in cluster.edges:
            if key not in combination.open:
                a, b = root(parent, fixed[a]), root(parent, fixed[b])
                if a != b:
                    parent[b] = a
        groups: dict[int, list[int]] = {}
        for number in numbers:
            groups.setdefault(root(parent, number), []).append(number)
        for group in groups.values():
            terminals = tuple(terminal for number in group for terminal in fixed.members(number))
            nodes = {_node(terminal) for terminal in terminals}
            mark = (tuple(group), tuple((n, w) for n, w in combination.positions.items() if n in nodes))
            if mark not in seen:
                seen.add(mark)
                yield LiveNet(terminals, combination)


def _node(terminal: str) -> str:
    return terminal.partition(".")[0]


def _one_at_a_time(ways):
    """Each position once with the others in their first: what is looked at above CAP."""
    first = [way[0] for way in ways]
    yield tuple(first)
    for index, way in enumerate(ways):
        for word in way[1:]:
            yield (*first[:index], word, *first[index + 1:])
