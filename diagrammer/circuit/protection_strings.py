"""Pv strings in parallel: how much the others drive into one that is shaded or shorted.

IEC 62548 and NEC 690.9(A): up to two strings in parallel need no fuse; of more, each needs one,
unless its modules' own largest series fuse covers what the others can give.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from diagrammer.circuit.protection_exempt import BARS
from diagrammer.circuit.protection_web import Loom, Web
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.electrics.rounding import above
from diagrammer.frozen import frozen
from diagrammer.kinds.pv import BRIGHT, in_parallel
from diagrammer.netlist.model import Node

FREE = 2  # strings in parallel that need no fuse


@frozen
class Strings(Fact):
    """strings in parallel in all; amps [A] the others can drive into one; most [A] its modules take:
    their largest series fuse where stated, else what one other string gives."""

    strings: int = 0
    amps: float = 0.0
    most: float = 0.0
    stated: bool = False


@frozen
class Array:
    """A pv node in a web: where it lands, and what it gives [A]."""

    node: Node
    point: str

    @property
    def strings(self) -> int:
        return in_parallel(self.node.values)

    @property
    def one(self) -> float:
        return BRIGHT * self.node["isc"]


def find(view: View, loom: Loom) -> tuple[tuple[Strings, ...], frozenset[str]]:
    """The strings without a fuse, and the pv nodes whose current needs no other thought: those
    reported, and those of at most two strings in all."""
    facts: list[Strings] = []
    dark: set[str] = set()
    for cluster in loom.clusters():
        if any(view.system.nodes[node_of(terminal)].kind.name == "pv" for terminal in cluster.terminals):
            web = loom.whole(cluster)
            arrays = list(_arrays(view, web))
            found = list(_unfused(view, web, arrays))
            if found or sum(array.strings for array in arrays) <= FREE:
                dark.update(array.node.name for array in arrays)
            facts += found
    return tuple(facts), frozenset(dark)


def _arrays(view: View, web: Web) -> Iterator[Array]:
    for name in dict.fromkeys(map(node_of, web.points)):
        node = view.system.nodes[name]
        plus = view.pole(name, "main", "+") if node.kind.name == "pv" else None
        if plus in web.points:
            yield Array(node, web.points[plus])


def _unfused(view: View, web: Web, arrays: list[Array]) -> Iterator[Strings]:
    total = sum(array.strings for array in arrays)
    if total <= FREE:
        return
    found = {array.node.name: fact for array in arrays if (fact := _one(web, array, arrays, total))}
    if 1 < len(found) == len(arrays):
        worst = max(found.values(), key=lambda fact: fact.amps - fact.most)
        yield replace(worst, nodes=tuple(dict.fromkeys((_combiner(view, web), *found))))
    else:
        yield from found.values()


def _one(web: Web, array: Array, arrays: Iterable[Array], total: int) -> Strings | None:
    """The fact about one string of an array, if it has no fuse and the others give too much."""
    zone = _spread(web, (array.point,), devices=False)
    near = sum(other.one * other.strings for other in arrays if other.point in zone) - array.one
    outside = [other for other in arrays if other.point not in zone]
    beyond = _spread(web, [other.point for other in outside], apart=zone)
    doors = [piece for point in zone for piece in web.at[point] if piece.other(point) in beyond]
    if array.node.get("string fuse") or not near and len(doors) <= 1:
        return None
    far = sum(other.one * other.strings for other in outside)
    amps = near + min(far, sum(far if door.rating is None else door.rating for door in doors))
    stated = array.node.get("max series fuse")
    most = stated or array.one
    if not above(amps, most):
        return None
    return Strings("unfused-strings", nodes=(array.node.name,), strings=total, amps=amps, most=most,
                   stated=bool(stated))


def _spread(web: Web, start: Iterable[str], devices: bool = True, apart: Collection[str] = ()) -> dict[str, None]:
    """The points reached, through overcurrent devices or not, and not into `apart`."""
    found = dict.fromkeys(start)
    queue = deque(found)
    while queue:
        here = queue.popleft()
        for piece in web.at[here]:
            other = piece.other(here)
            if other not in found and other not in apart and (devices or piece.form != "overcurrent"):
                found[other] = None
                queue.append(other)
    return found


def _combiner(view: View, web: Web) -> str:
    """The node where most arrays meet: a bar or joint before anything else, a pv node at last."""
    best = max(web.at, key=lambda point: len(web.at[point]))
    nodes = [view.system.nodes[node_of(t)] for t, p in web.points.items() if p == best]
    return min(nodes, key=lambda node: (node.kind.name not in BARS, node.kind.name == "pv")).name
