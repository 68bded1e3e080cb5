"""What parts a graph: bridges, blocks, minimum cuts. All iterative, all linear but the cuts.

A web is the adjacency these work on: {vertex: [(neighbour, edge key), ...]}, undirected, with an
edge listed at both ends. Bridges and blocks by the low-link of R. Tarjan, "Depth-first search and
linear graph algorithms", SIAM J. Comput. 1 (1972); cuts by shortest augmenting paths.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping

import networkx as nx

Web = Mapping[str, list[tuple[str, str]]]


def web(graph: nx.MultiGraph, keep: Callable[[str, Mapping], bool] = lambda key, data: True,
        within: Iterable[str] | None = None) -> dict[str, list[tuple[str, str]]]:
    """The web of the edges that `keep(key, data)` accepts, on the terminals `within`."""
    found: dict[str, list[tuple[str, str]]] = {}
    inside = graph if within is None else dict.fromkeys(within)
    for a in inside:
        found[a] = [
            (b, key) for b, edges in graph.adj[a].items() if b in inside for key, data in edges.items()
            if a != b and keep(key, data)
        ]
    return found


def _walk(web: Web) -> Iterator[tuple[str, str, str | None, str, str]]:
    """Depth-first from every vertex: ("tree", a, b key) when an edge is first taken, ("back", ...)
    on an edge to something met already, ("done", child, parent, key) when a child is finished."""
    met: set[str] = set()
    for root in web:
        if root in met:
            continue
        met.add(root)
        yield "root", root, None, "", ""
        stack = [(root, "", iter(web[root]))]
        while stack:
            vertex, came, edges = stack[-1]
            for other, key in edges:
                if key == came:
                    continue
                if other in met:
                    yield "back", vertex, other, key, came
                else:
                    met.add(other)
                    yield "tree", vertex, other, key, came
                    stack.append((other, key, iter(web[other])))
                    break
            else:
                stack.pop()
                if stack:
                    yield "done", stack[-1][0], vertex, came, stack[-1][1]


def bridges(web: Web) -> tuple[str, ...]:
    """The keys of the edges whose loss parts what they join, in the order they are left. O(V + E)."""
    order: dict[str, int] = {}
    low: dict[str, int] = {}
    found = []
    for event, a, b, key, _ in _walk(web):
        if event == "root":
            order[a] = low[a] = len(order)
        elif event == "tree":
            order[b] = low[b] = len(order)
        elif event == "back":
            low[a] = min(low[a], order[b])
        else:
            low[a] = min(low[a], low[b])
            if low[b] > order[a]:
                found.append(key)
    return tuple(found)


def islands(web: Web, without: Iterable[str]) -> dict[str, int]:
    """The number of the connected component of every vertex, the edges `without` taken out; with
    the bridges this gives the two-edge-connected components. O(V + E)."""
    gone = set(without)
    number: dict[str, int] = {}
    here = -1
    for start in web:
        if start in number:
            continue
        here += 1
        number[start] = here
        stack = [start]
        while stack:
            for other, key in web[stack.pop()]:
                if other not in number and key not in gone:
                    number[other] = here
                    stack.append(other)
    return number


def blocks(web: Web) -> Iterator[tuple[str, ...]]:
    """The biconnected components, each as its edge keys; every edge is in exactly one. O(V + E)."""
    order: dict[str, int] = {}
    low: dict[str, int] = {}
    path: list[str] = []
    height: dict[str, int] = {}
    used: set[str] = set()
    for event, a, b, key, _ in _walk(web):
        if event == "root":
            order[a] = low[a] = len(order)
        elif event == "tree":
            order[b] = low[b] = len(order)
            height[key] = len(path)
            path.append(key)
            used.add(key)
        elif event == "back":
            low[a] = min(low[a], order[b])
            if key not in used:
                used.add(key)
                path.append(key)
        else:
            low[a] = min(low[a], low[b])
            if low[b] >= order[a]:
                yield tuple(path[height[key]:])
                del path[height[key]:]


def between(web: Web, a: str, b: str) -> frozenset[str]:
    """The keys of the edges on some simple path from a to b: the block of an added edge. O(V + E)."""
    if a == b:
        return frozenset()
    added = "\0added"
    extended = {**web, a: [*web.get(a, ()), (b, added)], b: [*web.get(b, ()), (a, added)]}
    for block in blocks(extended):
        if added in block:
            return frozenset(block) - {added}
    return frozenset()


def reach(web: Web, start: Iterable[str], without: Iterable[str] = ()) -> dict[str, int]:
    """The vertices met from `start` and how many edges away each is, breadth first."""
    gone = set(without)
    distance = dict.fromkeys((vertex for vertex in start if vertex in web), 0)
    queue = deque(distance)
    while queue:
        vertex = queue.popleft()
        for other, key in web[vertex]:
            if other not in distance and key not in gone:
                distance[other] = distance[vertex] + 1
                queue.append(other)
    return distance


def trail(web: Web, start: str, ends: Collection[str], without: Iterable[str] = ()) -> tuple[str, ...]:
    """The vertices of a shortest path from `start` to any of `ends`; only `start` where none leads."""
    gone = set(without)
    came: dict[str, str | None] = {start: None}
    queue = deque(came)
    while queue:
        vertex = queue.popleft()
        if vertex in ends:
            path = [vertex]
            while (vertex := came[vertex]) is not None:
                path.append(vertex)
            return tuple(reversed(path))
        for other, key in web[vertex]:
            if other not in came and key not in gone:
                came[other] = vertex
                queue.append(other)
    return (start,)


def minimum_cut(web: Web, wrong: Iterable[str], right: Iterable[str],
                weight: Callable[[str], float]) -> tuple[float, tuple[str, ...]]:
    """The lightest set of edges that parts `wrong` from `right`, the nearest one to `wrong`:
    its weight and its keys in the order met. Weight infinite and no key where nothing can.

    `weight(key)` is what an edge costs to cut. O(cut size (V + E)) for unit weights.
    """
    wrong, right = dict.fromkeys(v for v in wrong if v in web), set(right)
    flow: dict[tuple[str, str], float] = {}

    def room(a: str, key: str) -> float:
        return weight(key) - flow.get((key, a), 0)

    total = 0.0
    while True:
        came, end = _augment(web, wrong, right, room)
        if end is None:
            return total, _crossing(web, came)
        amount, vertex = math.inf, end
        while came[vertex] is not None:
            a, key = came[vertex]
            amount, vertex = min(amount, room(a, key)), a
        if amount == math.inf:
            return math.inf, ()
        total += amount
        vertex = end
        while came[vertex] is not None:
            a, key = came[vertex]
            flow[key, a] = flow.get((key, a), 0) + amount
            flow[key, vertex] = flow.get((key, vertex), 0) - amount
            vertex = a


def _augment(web: Web, wrong, right, room):
    came: dict[str, tuple[str, str] | None] = dict.fromkeys(wrong)
    queue = deque(came)
    while queue:
        vertex = queue.popleft()
        if vertex in right:
            return came, vertex
        for other, key in web[vertex]:
            if other not in came and room(vertex, key) > 0:
                came[other] = (vertex, key)
                queue.append(other)
    return came, None


def _crossing(web: Web, near) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key for a in near for b, key in web[a] if b not in near))


def single_cuts(web: Web, wrong: Iterable[str], right: Iterable[str]) -> tuple[str, ...]:
    """Every single edge that parts `wrong` from `right`, nearest to `wrong` first. O(V + E)."""
    source, sink = "\0wrong", "\0right"
    joined = {vertex: list(edges) for vertex, edges in web.items()}
    joined[source], joined[sink] = [], []
    for end, side in ((source, wrong), (sink, right)):
        for vertex in dict.fromkeys(side):
            for copy in "12":  # two, so that the added edges are no bridges
                joined[end].append((vertex, f"{end} {vertex} {copy}"))
                joined[vertex].append((end, f"{end} {vertex} {copy}"))
    found = []
    away = reach(joined, (source,))
    if sink not in away:
        return ()
    candidates = set(bridges(joined)) & between(joined, source, sink)
    for vertex in sorted(away, key=away.get):
        found += [key for other, key in joined[vertex] if key in candidates and away[other] > away[vertex]]
    return tuple(dict.fromkeys(found))
