"""Third phase, returns: which are drawn in full and which become tags.

Before: the forest of the feed side. After: every chain of returns and bonds is one of
- a tail: from a store's - down to what gathers the returns of stores (a bar, or the post of the
  first of several joined directly);
- a tree chain: from a gathering bar, by the shunt, to the next bar, chassis or earth;
- a cross chain: it has devices of its own, drawn at one end, with a reference at the other;
- a tag at one of its ends, with the name of the other.
"""

from __future__ import annotations

from collections import deque
from dataclasses import field
from functools import cached_property

from diagrammer.frozen import changing
from diagrammer.layout.p1_wiring import RAILS, STORES, Spot, Vertex
from diagrammer.layout.p2_chains import Chain, chains
from diagrammer.layout.p3_ways import Tree

GROUNDS = ("chassis", "hull", "engine", "earth", "rod", "sea plate")


@changing
class Returns:
    chains: list[Chain]
    tails: dict[Spot, list[tuple[Chain, bool, Spot]]] = field(default_factory=dict)  # key: of a store's -
    gathers: dict[Spot, int] = field(default_factory=dict)  # where tails end: how many
    down: dict[Vertex, list[tuple[Chain, bool]]] = field(default_factory=dict)  # tree, from its a if True
    tags: dict[Vertex, list[tuple[str, Chain, Vertex]]] = field(default_factory=dict)  # form, chain, far end
    cross: dict[int, bool] = field(default_factory=dict)
    roots: list[Vertex] = field(default_factory=list)

    def crossing(self, vertex: Vertex) -> list[Chain]:
        """The cross chains that end at a vertex."""
        return self._crossing.get(vertex, [])

    @cached_property
    def _crossing(self) -> dict[Vertex, list[Chain]]:
        made: dict[Vertex, list[Chain]] = {}
        for chain in self.chains if self.cross else ():
            if chain.index in self.cross:
                for vertex in dict.fromkeys((chain.a[0], chain.b[0])):
                    made.setdefault(vertex, []).append(chain)
        return made


def returns(tree: Tree, every: list[Chain] | None = None) -> Returns:
    """Sort the returns and bonds of a forest; every: their chains, where those are known."""
    made = Returns(chains(tree.wiring, tree.wiring.returns) if every is None else every)
    feed = tree.wiring.vertices
    at: dict[Vertex, list[tuple[Chain, bool]]] = {}
    for chain in made.chains:
        at.setdefault(chain.a[0], []).append((chain, True))
        at.setdefault(chain.b[0], []).append((chain, False))
    used: set[int] = set()
    heads = _gather(tree, made, at, used)
    reached = set(heads)
    _grow(made, at, feed, reached, used, heads)
    for vertex in sorted(at, key=lambda v: (tree.kind(v) != "bar", tree.kind(v) in GROUNDS)):
        if vertex not in feed and vertex not in reached and vertex not in tree.reached:
            made.roots.append(vertex)
            reached.add(vertex)
            _grow(made, at, feed, reached, used, [vertex])
    for chain in made.chains:
        if chain.index not in used:
            _tag(tree, made, chain, feed)
    return made


def _gather(tree: Tree, made: Returns, at, used: set[int]) -> list[Vertex]:
    """Tails of all stores; the vertices they end at, in file order."""
    feed = tree.wiring.vertices
    joined = _joined(tree, made.chains)
    heads: dict[Vertex, None] = {}
    for vertex in tree.reached:
        if tree.kind(vertex) not in STORES or tree.kind(vertex) == "battery" and _starts(tree, vertex):
            continue
        spot = (vertex, "main-")
        leader = joined.get(vertex)
        if leader is not None:
            key = (leader, "main-")
            links = [
                c for c, at_a in at.get(vertex, ())
                if joined.get((c.b if at_a else c.a)[0]) == leader and c.index not in used
            ]
            chain = links[0] if links else None
            used.update(c.index for c in links[:1])
            made.tails.setdefault(spot, []).append((chain, True, key))
            made.gathers[key] = made.gathers.get(key, 0) + 1
            heads.setdefault(leader)
            continue
        for chain, at_a in at.get(vertex, ()):
            near, far = (chain.a, chain.b) if at_a else (chain.b, chain.a)
            if near == spot and far[0] not in feed and chain.links[0].role == "return" and spot not in made.tails:
                made.tails[spot] = [(chain, at_a, far)]
                made.gathers[far] = made.gathers.get(far, 0) + 1
                heads.setdefault(far[0])
                used.add(chain.index)
    return list(heads)


def _starts(tree: Tree, vertex: Vertex) -> bool:
    return tree.wiring.system.nodes[vertex[0]].get("duty") == "starter"


def _joined(tree: Tree, every: list[Chain]) -> dict[Vertex, Vertex]:
    """Stores whose - are joined directly: each to the first of its set."""
    leader: dict[Vertex, Vertex] = {}
    order = {vertex: n for n, vertex in enumerate(tree.reached)}
    for chain in every:
        a, b = chain.a, chain.b
        if chain.members or a[1] != "main-" or b[1] != "main-" or a[0] not in order or b[0] not in order:
            continue
        roots = {leader.get(a[0], a[0]), leader.get(b[0], b[0])}
        first = min(roots, key=order.__getitem__)
        for vertex in [a[0], b[0], *(v for v, l in leader.items() if l in roots)]:
            leader[vertex] = first
    return leader


def _grow(made: Returns, at, feed, reached: set[Vertex], used: set[int], heads: list[Vertex]) -> None:
    queue = deque(heads)
    while queue:
        vertex = queue.popleft()
        for chain, at_a in at.get(vertex, ()):
            far = chain.b if at_a else chain.a
            if chain.index in used or far[0] in feed or far[0] in reached:
                continue
            if (chain.a if at_a else chain.b)[1] not in ("main", "main-", "1", "2", "battery", "system"):
                continue
            used.add(chain.index)
            reached.add(far[0])
            made.down.setdefault(vertex, []).append((chain, at_a))
            queue.append(far[0])


def _tag(tree: Tree, made: Returns, chain: Chain, feed) -> None:
    """A tag at the end that is no bar; devices of its own make it a cross chain instead (not so the
    second pole of one that stands in the feed)."""
    def weight(spot: Spot) -> int:
        kind = tree.kind(spot[0])
        return 3 if kind in GROUNDS else 2 if kind in RAILS else 1 if kind in STORES else 0
    alike = weight(chain.a) == weight(chain.b)
    from_a = weight(chain.a) < weight(chain.b) or alike and chain.a[0] in feed and chain.b[0] not in feed
    near, far = (chain.a, chain.b) if from_a else (chain.b, chain.a)
    if not all(m.vertex[1] and (m.vertex[0], "") in feed for m in chain.members):
        made.cross[chain.index] = not from_a  # devices at the bar: True for its a
        return
    form = "earth" if chain.links[0].role == "bond" or near[1] == "earth" else "return"
    made.tags.setdefault(near[0], []).append((form, chain, far[0]))
