"""The lightest cut between two sides of a web (see cuts.py), by maximum flow.

Blocking flows along shortest paths: Y. Dinitz, Soviet Math. Dokl. 11 (1970), from memory.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Iterable

from diagrammer.circuit.cuts import Web


def minimum_cut(web: Web, wrong: Iterable[str], right: Iterable[str],
                weight: Callable[[str], float]) -> tuple[float, tuple[str, ...]]:
    """The lightest set of edges that parts `wrong` from `right`, the nearest one to `wrong`:
    its weight and its keys in the order met. Weight infinite and no key where nothing can.

    `weight(key)` is what an edge costs to cut.
    """
    wrong, right = [v for v in dict.fromkeys(wrong) if v in web], set(right)
    flow: dict[tuple[str, str], float] = {}

    def room(a: str, key: str) -> float:
        return weight(key) - flow.get((key, a), 0)

    total = 0.0
    while right.isdisjoint(wrong):
        level = _levels(web, wrong, room)
        if right.isdisjoint(level):
            return total, _crossing(web, level)
        next_edge = dict.fromkeys(level, 0)
        for start in wrong:
            while path := _path(web, start, right, level, next_edge, room):
                amount = min(room(a, key) for a, key, _ in path)
                if amount == math.inf:
                    return math.inf, ()
                total += amount
                for a, key, b in path:
                    flow[key, a] = flow.get((key, a), 0) + amount
                    flow[key, b] = flow.get((key, b), 0) - amount
    return math.inf, ()


def _levels(web: Web, wrong, room) -> dict[str, int]:
    """How many edges with room each vertex is from `wrong`."""
    level = dict.fromkeys(wrong, 0)
    queue = deque(level)
    while queue:
        vertex = queue.popleft()
        for other, key in web[vertex]:
            if other not in level and room(vertex, key) > 0:
                level[other] = level[vertex] + 1
                queue.append(other)
    return level


def _path(web: Web, start: str, right, level, next_edge, room) -> list[tuple[str, str, str]]:
    """A way up the levels from `start` to `right`: (vertex, edge, next vertex). `next_edge` counts
    for each vertex the edges that lead nowhere any more."""
    path: list[tuple[str, str, str]] = []
    vertex = start
    while vertex not in right:
        edges = web[vertex]
        while next_edge[vertex] < len(edges):
            other, key = edges[next_edge[vertex]]
            if level.get(other) == level[vertex] + 1 and room(vertex, key) > 0:
                path.append((vertex, key, other))
                vertex = other
                break
            next_edge[vertex] += 1
        else:
            if not path:
                return []
            vertex = path.pop()[0]
            next_edge[vertex] += 1
    return path


def _crossing(web: Web, near) -> tuple[str, ...]:
    return tuple(dict.fromkeys(key for a in near for b, key in web[a] if b not in near))
