"""Which conductor to name when two sides meet that must not.

The lightest cut between them, nearest to the side in the wrong. Where several single conductors
would do, the one that nobody would miss; on a tie the nearest.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from diagrammer.circuit import cuts
from diagrammer.circuit.nets import same_potential
from diagrammer.circuit.supply import Supply
from diagrammer.circuit.view import Fact, View, node_of

JOINT = 1000  # a bolted joint is cut only where no conductors would do


@dataclass
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

    def cut(self, terminals: Iterable[str], wrong: Collection[str], right: Collection[str],
            open: Collection[str] = (), gone: Collection[str] = (),
            joins: Callable[[Mapping], bool] = same_potential) -> Cut:
        """The edges to blame within one net: `open` do not conduct, circuits `gone` are out."""
        edges = self.view.edges

        def keep(key: str, data: Mapping) -> bool:
            return joins(data) and key not in open and getattr(data["value"], "circuit", None) not in gone

        web = cuts.web(self.view.graph, keep, terminals)
        total, keys = cuts.minimum_cut(web, wrong, right, lambda key: WEIGHTS.get(edges[key]["form"], math.inf))
        if total == 1:
            keys = (self._least_missed(web, wrong, right),)
        return Cut(web, keys)

    def _least_missed(self, web, wrong, right) -> str:
        singles = [key for key in cuts.single_cuts(web, wrong, right) if self.view.edges[key]["form"] == "conductor"]
        return singles[0] if len(singles) == 1 else min(singles, key=self.supply.missed)

    def where(self, key: str) -> dict:
        """What a Fact says of an edge that is blamed: cables, nodes, edge."""
        data, ends = self.view.edges[key], self.view.ends(key)
        nodes = tuple(dict.fromkeys(map(node_of, reversed(ends))))
        if data["form"] == "conductor":
            return {"cables": (data["value"].cable,), "nodes": nodes}
        return {"nodes": nodes, "edge": key}

    def path(self, cut: Cut, key: str, wrong: Collection[str], right: Collection[str]) -> tuple[str, ...]:
        """The nodes met from the right side over the blamed edge to the wrong one."""
        a, b = self.view.ends(key)
        near = cuts.reach(cut.web, wrong, cut.keys)
        if a in near and b not in near:
            a, b = b, a
        there = cuts.trail(cut.web, a, set(right), cut.keys)
        onward = cuts.trail(cut.web, b, set(wrong), cut.keys)
        return tuple(dict.fromkeys(map(node_of, (*reversed(there), *onward))))


def once(facts: Iterable[Fact]) -> Iterator[Fact]:
    """The first of the facts that blame the same: a fault may show in several positions."""
    seen = set()
    for fact in facts:
        if fact.mark not in seen:
            seen.add(fact.mark)
            yield fact


WEIGHTS = {"conductor": 1, "joint": JOINT}


@dataclass(frozen=True)
class Cut:
    """The blamed edges, and the web they were cut from."""

    web: Mapping[str, list[tuple[str, str]]]
    keys: tuple[str, ...]
