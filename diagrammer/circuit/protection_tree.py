"""A web as a tree: two-edge-connected blocks of points, joined by bridges."""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit import cuts
from diagrammer.circuit.protection_web import Piece, Web
from diagrammer.frozen import frozen


@frozen(eq=False, slots=True)
class Link:
    """A bridge as one block sees it: it begins there at `near` and leads to `far` in `block`."""

    piece: Piece
    near: str
    far: str
    block: int


@frozen(eq=False)
class Tree:
    """points and inner pieces of each block; links: its bridges; parent: the link of each block
    towards the root of its tree, None at a root; order: parents before children."""

    points: tuple[tuple[str, ...], ...]
    inner: tuple[tuple[Piece, ...], ...]
    links: tuple[tuple[Link, ...], ...]
    parent: tuple[Link | None, ...]
    order: tuple[int, ...]

    def meshed(self, block: int) -> bool:
        return bool(self.inner[block])

    def children(self, block: int) -> Iterator[Link]:
        above = self.parent[block]
        return (link for link in self.links[block] if above is None or link.piece is not above.piece)


def tree(web: Web) -> Tree:
    """The bridge tree of a web. O(points + pieces)."""
    adjacency = {point: [(piece.other(point), piece.key) for piece in pieces] for point, pieces in web.at.items()}
    bridges = frozenset(cuts.bridges(adjacency))
    number, groups = _blocks(web, bridges)
    inner: list[list[Piece]] = [[] for _ in groups]
    links: list[list[Link]] = [[] for _ in groups]
    for piece in web.pieces:
        if piece.key in bridges:
            for near, far in ((piece.a, piece.b), (piece.b, piece.a)):
                links[number[near]].append(Link(piece, near, far, number[far]))
        else:
            inner[number[piece.a]].append(piece)
    parent, order = _rooted(links)
    return Tree(tuple(map(tuple, groups)), tuple(map(tuple, inner)), tuple(map(tuple, links)), parent, order)


def _blocks(web: Web, bridges: frozenset[str]) -> tuple[dict[str, int], list[list[str]]]:
    number: dict[str, int] = {}
    groups: list[list[str]] = []
    for start in web.at:
        if start in number:
            continue
        number[start], group = len(groups), [start]
        for point in group:  # grows while it is walked
            for piece in web.at[point]:
                other = piece.other(point)
                if piece.key not in bridges and other not in number:
                    number[other] = len(groups)
                    group.append(other)
        groups.append(group)
    return number, groups


def _rooted(links: list[list[Link]]) -> tuple[tuple[Link | None, ...], tuple[int, ...]]:
    parent: list[Link | None] = [None] * len(links)
    met = [False] * len(links)
    order: list[int] = []
    for root in range(len(links)):
        if met[root]:
            continue
        met[root] = True
        queue = [root]
        for block in queue:
            for link in links[block]:
                if not met[link.block]:
                    met[link.block] = True
                    parent[link.block] = Link(link.piece, link.far, link.near, block)
                    queue.append(link.block)
        order += queue
    return tuple(parent), tuple(order)
