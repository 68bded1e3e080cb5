"""Which conductor to name when two sides meet that must not.

The lightest cut between them, nearest to the side in the wrong. Where several single conductors
would do, the one that nobody would miss; on a tie the nearest.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import field, replace

from diagrammer.circuit import cuts
from diagrammer.circuit.mincut import minimum_cut
from diagrammer.circuit.nets import same_potential
from diagrammer.circuit.supply import Supply
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.frozen import changing, frozen

JOINT = 1.5  # conductors: a bolted joint is named rather than two of them, but not rather than one


@changing
class Bench:
    """What a check that blames has at hand: one view, and the closure over it once it is needed."""

    view: View

    def __post_init__(self) -> None:
        self._supply: Supply | None = None

    @property
    def supply(self) -> Supply:
        if self._supply is None:
            self._supply = Supply(self.view, self.view.graph)
        return self._supply

    def cut(self, conflict: Conflict, gone: Collection[str] = (), besides: Collection[str] = ()) -> Cut:
        """The edges to blame for a conflict, circuits `gone` being out already. Nodes `besides` are
        not asked whether they would miss a conductor."""
        edges = self.view.edges

        def keep(key: str, data: Mapping) -> bool:
            return (conflict.joins(data) and key not in conflict.open
                    and getattr(data["value"], "circuit", None) not in gone)

        web = cuts.web(self.view.graph, keep, conflict.terminals)
        weight = {"conductor": 1, "joint": JOINT}
        total, keys = minimum_cut(
            web, conflict.wrong, conflict.right, lambda key: weight.get(edges[key]["form"], math.inf))
        if total == 1:
            keys = (self._least_missed(web, conflict, besides),)
        return Cut(web, keys, conflict)

    def _least_missed(self, web, conflict: Conflict, besides: Collection[str]) -> str:
        singles = [key for key in cuts.single_cuts(web, conflict.wrong, conflict.right)
                   if self.view.edges[key]["form"] == "conductor"]
        return singles[0] if len(singles) == 1 else min(singles, key=lambda key: self.supply.missed(key, besides))

    def where(self, key: str) -> dict:
        """What a Fact says of an edge that is blamed: cables, nodes, edge."""
        data, ends = self.view.edges[key], self.view.ends(key)
        nodes = tuple(dict.fromkeys(map(node_of, reversed(ends))))
        if data["form"] == "conductor":
            return {"cables": (data["value"].cable,), "nodes": nodes}
        return {"nodes": nodes, "edge": key}

    def path(self, cut: Cut, key: str, start: Collection[str] = ()) -> tuple[str, ...]:
        """The nodes met from the right side, or those of its terminals in `start`, over the blamed
        edge to the wrong one."""
        a, b = self.view.ends(key)
        near = cut.tree(cut.conflict.wrong)
        if a in near:
            a, b = b, a
        there = cuts.way(cut.tree(tuple(start) or cut.conflict.right), a)
        onward = cuts.way(near, b)
        return tuple(dict.fromkeys(map(node_of, (*there, *reversed(onward)))))


def once(facts: Iterable[Fact]) -> Iterator[Fact]:
    """The first of the facts that blame the same: a fault may show in several positions."""
    seen = set()
    for fact in facts:
        if fact.mark not in seen:
            seen.add(fact.mark)
            yield fact


@frozen
class Conflict:
    """Two sides that must not meet, among these terminals; inside edges `open` do not conduct.
    `about` is what the check wants to remember of it."""

    terminals: tuple[str, ...]
    wrong: tuple[str, ...]
    right: tuple[str, ...]
    open: frozenset[str] = frozenset()
    joins: Callable[[Mapping], bool] = same_potential
    about: object = None


@frozen
class Cut:
    """The blamed edges, and the web they were cut from."""

    web: Mapping[str, list[tuple[str, str]]]
    keys: tuple[str, ...]
    conflict: Conflict
    _trees: dict = field(default_factory=dict, compare=False, repr=False)

    def tree(self, starts: tuple[str, ...]) -> Mapping[str, str | None]:
        """The shortest ways from these terminals with the blamed edges out."""
        if starts not in self._trees:
            self._trees[starts] = cuts.tree(self.web, starts, self.keys)
        return self._trees[starts]


def merged(conflicts: Iterable[Conflict]) -> list[Conflict]:
    """Conflicts of the same wrong side in several positions as one, that what is blamed may part
    them in all; the largest first, since it may settle the others."""
    alike: dict[frozenset[str], list[Conflict]] = {}
    for conflict in conflicts:
        alike.setdefault(frozenset(conflict.wrong), []).append(conflict)
    whole = [_one(many) for many in alike.values()]
    return sorted(whole, key=lambda conflict: -len(conflict.terminals))


def _one(many: list[Conflict]) -> Conflict:
    first = max(many, key=lambda conflict: len(conflict.terminals))
    return replace(
        first, terminals=_union(one.terminals for one in many), right=_union(one.right for one in many),
        open=frozenset.intersection(*(one.open for one in many)),
    )


def _union(parts: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(item for part in parts for item in part))
