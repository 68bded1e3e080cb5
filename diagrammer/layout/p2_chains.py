"""Second phase: devices in series contracted to chains between hubs.

Before: a Wiring. After: every link is in exactly one chain; the members of a chain are met once
by it and by no other; its two ends are spots of hubs.
"""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.layout.p1_wiring import SIGNALS, Link, Spot, Vertex, Wiring

PASSED = ("joint", "terminals")  # points that stand in a line where just two conductors meet


@frozen
class Member:
    vertex: Vertex
    enter: str
    leave: str


@frozen
class Chain:
    """links[i] leads to members[i]; the last link leads to `b`. a to b as written."""

    index: int
    a: Spot
    b: Spot
    links: tuple[Link, ...]
    members: tuple[Member, ...]

    def end(self, near: Spot, at_a: bool) -> Spot:
        return self.b if at_a else self.a

    def walk(self, from_a: bool) -> tuple[tuple[Link, ...], tuple[Member, ...]]:
        if from_a:
            return self.links, self.members
        turned = tuple(Member(m.vertex, m.leave, m.enter) for m in reversed(self.members))
        return tuple(reversed(self.links)), turned

    def along(self, link: Link, from_a: bool) -> bool:
        """Whether one of its links is walked from its own a to its b."""
        links, members = self.walk(from_a)
        number = links.index(link)
        before = members[number - 1].vertex if number else (self.a if from_a else self.b)[0]
        return link.a[0] == before

    @property
    def signal(self) -> bool:
        return self.a[1] in SIGNALS or self.b[1] in SIGNALS


def chains(wiring: Wiring, links: list[Link]) -> list[Chain]:
    """All chains of `links`, in file order of their first link."""
    met: dict[Vertex, list[tuple[str, Link]]] = {}
    for link in links:
        for vertex, port in (link.a, link.b):
            if port not in SIGNALS:
                met.setdefault(vertex, []).append((port, link))
    passed = {vertex for vertex, ends in met.items() if _passed(wiring, vertex, ends)}
    used: set[int] = set()
    made = []
    for link in links:
        if link.index not in used:
            made.append(_chain(len(made), link, met, passed, used))
    return made


def _passed(wiring: Wiring, vertex: Vertex, ends: list[tuple[str, Link]]) -> bool:
    kind = wiring.system.nodes[vertex[0]].kind
    if len(ends) != 2 or ends[0][1] is ends[1][1]:
        return False
    if kind.name in PASSED:
        return True
    return kind.sort == "through" and ends[0][0] != ends[1][0]


def _chain(index: int, link: Link, met, passed, used: set[int]) -> Chain:
    used.add(link.index)
    a, back, before = _follow(link.a, link, met, passed, used)
    b, ahead, after = _follow(link.b, link, met, passed, used)
    members = [Member(m.vertex, m.leave, m.enter) for m in reversed(before)] + after
    return Chain(index, a, b, (*reversed(back), link, *ahead), tuple(members))


def _follow(spot: Spot, link: Link, met, passed, used: set[int]) -> tuple[Spot, list[Link], list[Member]]:
    """From the end of a link through what stands in series, to the hub's spot."""
    links: list[Link] = []
    members: list[Member] = []
    while spot[0] in passed and spot[1] not in SIGNALS:
        (port_1, link_1), (port_2, link_2) = met[spot[0]]
        onward, leave = (link_2, port_2) if link_1 is link else (link_1, port_1)
        if onward.index in used:
            break
        used.add(onward.index)
        members.append(Member(spot[0], spot[1], leave))
        links.append(onward)
        spot = onward.other((spot[0], leave))
        link = onward
    return spot, links, members
