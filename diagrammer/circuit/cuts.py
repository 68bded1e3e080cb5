"""What parts a graph: bridges, blocks, single cuts. All iterative, all linear.

A web is the adjacency these work on: {vertex: [(neighbour, edge key), ...]}, undirected, with an
edge listed at both ends. Bridges and blocks by the low-link of R. Tarjan, "Depth-first search and
linear graph algorithms", SIAM J. Comput. 1 (1972), from memory.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Mapping

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


def _walk(web: Web) -> Iterator[tuple[str, str, str, str]]:
    """Depth-first from every vertex: ("root", a, ...) at each start, ("tree", a, b, key) when an edge is first taken,
    ("back", ...) on an edge to something met already, ("done", parent, child, key) when a child is finished."""
    met: set[str] = set()
    for root in web:
        if root not in met:
            met.add(root)
            yield "root", root, "", ""
            yield from _descent(web, root, met)


def _descent(web: Web, root: str, met: set[str]) -> Iterator[tuple[str, str, str, str]]:
    stack = [(root, "", iter(web[root]))]
    while stack:
        vertex, came, edges = stack[-1]
        for other, key in edges:
            if key == came:
                continue
            if other in met:
                yield "back", vertex, other, key
            else:
                met.add(other)
                yield "tree", vertex, other, key
                stack.append((other, key, iter(web[other])))
                break
        else:
            stack.pop()
            if stack:
                yield "done", stack[-1][0], vertex, came


def bridges(web: Web) -> tuple[str, ...]:
    """The keys of the edges whose loss parts what they join, in the order they are left. O(V + E)."""
    return tuple(block[0] for block in blocks(web) if len(block) == 1)


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
    for event, a, b, key in _walk(web):
        if event == "root":
            order[a] = low[a] = len(order)
        elif event == "tree":
            order[b] = low[b] = len(order)
            height[key] = len(path)
            path.append(key)
        elif event == "back":
            if order[b] < order[a]:  # and not the same edge again, seen from its other end
                low[a] = min(low[a], order[b])
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


def tree(web: Web, starts: Iterable[str], without: Iterable[str] = ()) -> dict[str, str | None]:
    """Shortest ways from `starts`, breadth first: each vertex met, and the one before it."""
    gone = set(without)
    came: dict[str, str | None] = dict.fromkeys(vertex for vertex in starts if vertex in web)
    queue = deque(came)
    while queue:
        vertex = queue.popleft()
        for other, key in web[vertex]:
            if other not in came and key not in gone:
                came[other] = vertex
                queue.append(other)
    return came


def way(came: Mapping[str, str | None], end: str) -> tuple[str, ...]:
    """The vertices from a start of the tree to `end`; only `end` where the tree does not reach."""
    path = [end]
    while (before := came.get(path[-1])) is not None:
        path.append(before)
    return tuple(reversed(path))


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
    candidates = set(bridges(joined)) & between(joined, source, sink)
    return tuple(dict.fromkeys(key for vertex in reach(joined, (source,)) for _, key in joined[vertex]
                               if key in candidates))
