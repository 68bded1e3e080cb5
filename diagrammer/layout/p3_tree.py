"""Third phase: a spanning forest of the chains, breadth first in file order from the main bar.

Before: the chains of a Wiring. After: every hub is in one piece's tree; every chain is "tree" (it
leads to a hub first reached by it) or "cross" (drawn at one end, its other end elsewhere); of
every chain end it is known whether it leaves upwards or downwards. No order but the file's.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Collection

from diagrammer.layout.p1_wiring import RAILS, SIGNALS, Spot, STORES, Vertex, Wiring
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p3_ways import GIVES_UP, Tree, up


def tree(wiring: Wiring, chains: list[Chain], cut: Collection[int] = ()) -> Tree:
    """The forest. `cut`: chains that must end in references, so that what they lead to stands apart."""
    made = Tree(wiring, chains)
    for chain in chains:
        for spot, at_a in ((chain.a, True), (chain.b, False)):
            if spot[1] in SIGNALS:
                made.signals.setdefault(spot[0], []).append((spot[1], chain))
                continue
            made.at.setdefault(spot[0], {}).setdefault(spot[1], []).append((chain, at_a))
    for index in cut:
        made.cross[index] = made.cross.get(index, True)
    for vertex in _roots(made):
        if vertex not in made.reached:
            _grow(made, vertex)
    for index in list(made.cross):
        if index not in cut:
            _see(made, chains[index])
    return made


def _see(made: Tree, chain: Chain) -> None:
    """A cross link between a bar and the nearest rail above or below it can be a parallel column."""
    for child, bar, at_a in ((chain.a, chain.b, True), (chain.b, chain.a, False)):
        if chain.signal or child[0] == bar[0]:
            return
        if made.kind(bar[0]) != "bar" or made.kind(child[0]) not in RAILS | STORES:
            continue
        vertex = child[0]
        while (came := made.reached.get(vertex)) and vertex != bar[0]:
            upward = up(made, came[0], came[0].a if came[1] else came[0].b)
            vertex = (came[0].a if came[1] else came[0].b)[0]
            if vertex != bar[0] and made.kind(vertex) in RAILS | STORES:
                break
        if vertex == bar[0]:
            made.parallel[chain.index] = (at_a, bar, not upward)
            return


def _roots(made: Tree) -> list[Vertex]:
    """Where trees may start: the best first, then whatever it does not reach, in that order."""
    order = {vertex: number for number, vertex in enumerate(made.at)}
    return sorted(made.at, key=lambda vertex: (*_rank(made, vertex), order[vertex]))


def _rank(made: Tree, vertex: Vertex) -> tuple[int, int]:
    """How well a tree starts at a vertex: the kind of place, then how much hangs on it beside stores."""
    kind = made.kind(vertex)
    fars = [
        (chain.b if at_a else chain.a)[0] for _, chain, at_a in made.ends(vertex) if not chain.signal
    ]
    count = -sum(made.kind(far) not in STORES for far in fars)
    places = ("bar", "selector", "bank", "battery", "panel", "ac panel")
    starts = kind == "battery" and made.wiring.system.nodes[vertex[0]].get("duty") == "starter"
    if starts or kind == "bar" and len(fars) < 2:
        return 3, count
    if kind in places:
        return places.index(kind), count
    return (6, 0) if kind in GIVES_UP else (7, 0)


def _grow(made: Tree, root: Vertex) -> None:
    made.roots.append(root)
    made.reached[root] = None
    queue = deque([root])
    while queue:
        vertex = queue.popleft()
        for port, chain, at_a in made.ends(vertex):
            if chain.index in made.cross or _is_parent(made, vertex, chain):
                continue
            far = chain.b if at_a else chain.a
            if chain.signal:
                made.cross[chain.index] = chain.a[1] not in SIGNALS
            elif far[0] in made.reached:
                made.cross[chain.index] = _owner(made, chain)
            elif made.wiring.system.nodes[vertex[0]].kind.uses and made.kind(far[0]) in RAILS | STORES:
                made.cross[chain.index] = True  # what is fed twice is no way to its second feed
            elif _apart(made, (vertex, port), chain, far):
                made.cross[chain.index] = not at_a if made.kind(far[0]) in RAILS else at_a
            else:
                made.reached[far[0]] = (chain, at_a)
                queue.append(far[0])


def _is_parent(made: Tree, vertex: Vertex, chain: Chain) -> bool:
    came = made.reached.get(vertex)
    return bool(came and came[0] is chain)


def _owner(made: Tree, chain: Chain) -> bool:
    """Devices of a cross link stand at the bar or panel they leave; True for its `a`."""
    return True if made.kind(chain.a[0]) in RAILS or made.kind(chain.b[0]) not in RAILS else True


def _apart(made: Tree, spot: Spot, chain: Chain, far: Spot) -> bool:
    """An ac panel with loads of its own does not stand on top of a charger it feeds."""
    if made.kind(far[0]) != "ac panel" or made.kind(spot[0]) in RAILS or up(made, chain, spot) is False:
        return False
    return any(
        up(made, other, (far[0], port)) is False
        for port, other, _ in made.ends(far[0]) if other is not chain and not other.signal
    )
