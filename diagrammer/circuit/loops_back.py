"""Ways back: returns that are missing, and returns that land on another system's side.

The nodes of each feed net are grouped by the return net that they stand on. A group with users
and no source has no way back, or strays where the return net belongs to others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from diagrammer.circuit.blame import Bench, Conflict
from diagrammer.circuit.nets import Nets
from diagrammer.circuit.supply import MAKES
from diagrammer.circuit.view import Fact, node_of
from diagrammer.circuit.wiring import Wiring, way_back
from diagrammer.frozen import changing, frozen


@frozen
class NoReturn(Fact):
    """behind: the nodes whose way back it should be; source: what feeds them; bare: no conductor
    lands on its return at all; gives: it is a source itself."""

    behind: tuple[str, ...] = ()
    source: str = ""
    bare: bool = False
    gives: bool = False


@frozen
class Stray(Fact):
    """user returns to the side of `other`, while `source` feeds it."""

    user: str = ""
    source: str = ""
    other: str = ""


@frozen
class End:
    """What needs a way back: a port's two terminals, and whether it gives or uses."""

    node: str
    plus: str
    minus: str
    gives: bool


@changing
class Group:
    """The ends of one feed net on one return net."""

    back: int
    users: list[End]
    sources: list[End]


def ways_back(wiring: Wiring) -> Iterator[Fact]:
    """missing-return and stray-return; strays also where a bank is isolated from another."""
    returns = Returns(wiring)
    yield from returns.facts(wiring.nets)
    yield from (fact for fact in returns.facts(wiring.apart) if isinstance(fact, Stray))


class Returns:
    """The question, and what it needs more than once."""

    def __init__(self, wiring: Wiring):
        self.wiring, self.view = wiring, wiring.view

    @cached_property
    def ends(self) -> tuple[End, ...]:
        return (*self._giving(), *self._using())

    def _giving(self) -> Iterator[End]:
        for name, give in self.view.gives:
            plus, minus = self._poles(name, give.port)
            minus = minus or self.view.pole(name, "main", "-")
            if minus and give.port not in self.wiring.supply.inputs.get(name, ()):
                yield End(name, plus, minus, True)
                foot = self.wiring.stacks.foot(minus)
                if foot != minus:
                    yield End(name, plus, foot, True)

    def _using(self) -> Iterator[End]:
        for name in self.wiring.nodes:
            for port in (*self.wiring.supply.inputs.get(name, ()), "coil"):
                plus, minus = self._poles(name, port)
                if minus:
                    yield End(name, plus, minus, False)

    def _poles(self, name: str, port: str) -> tuple[str | None, str | None]:
        """The live terminal of a port and its way back: + and -, or the first line and N; none of a port it lacks."""
        back = self.view.pole(name, port, "-") or self.view.pole(name, port, "N")
        return next(iter(self.view.hot(name, port)), None), back

    def facts(self, nets: Nets) -> Iterator[Fact]:
        groups: dict[int, dict[int, Group]] = {}
        for end in self.ends:
            back = self.wiring.back[end.minus]
            group = groups.setdefault(nets[end.plus], {}).setdefault(back, Group(back, [], []))
            if end.gives:
                group.sources.append(end)
            elif end.node not in self.wiring.excused:
                group.users.append(end)
        for feed, parts in groups.items():
            yield from self._unwired(parts.values())
            if any(group.sources for group in parts.values()):
                yield from self._of_feed(nets.members(feed), list(parts.values()))

    def _unwired(self, groups: Iterable[Group]) -> Iterator[NoReturn]:
        """Users that have a feed and no conductor at all on their return."""
        source = next((end.node for group in groups for end in group.sources), "")
        for group in groups:
            if self._bare(group):
                for end in group.users:
                    if self.wiring.degree[end.plus]:
                        yield NoReturn("missing-return", nodes=(end.node,), source=source, bare=True)

    def _of_feed(self, feed: tuple[str, ...], groups: list[Group]) -> Iterator[Fact]:
        """A source whose own return is bare is named for the groups that miss it; a converter only
        where no group does."""
        lost = [group for group in groups if group.users and not group.sources and not self._bare(group)]
        lone = [group.sources[0] for group in groups if group.sources and self._bare(group)
                and self.wiring.degree[group.sources[0].plus]]
        if lost:
            lone = [end for end in lone if self._roles[end.node] in MAKES]
        yield from (NoReturn("missing-return", nodes=(end.node,), bare=True, gives=True) for end in lone)
        hidden = bool(lone) or any(group.sources and self._open(group) for group in groups)
        if any(terminal in self.wiring.fed[0] for terminal in feed):
            source = next(end.node for group in groups for end in group.sources)
            for group in lost:
                yield from self._lost(group, source, hidden)

    def _lost(self, group: Group, source: str, hidden: bool) -> Iterator[Fact]:
        """Users whose returns meet where no source of theirs does: nowhere, or on another's side."""
        if hidden or self._open(group) or any(t in self.wiring.crossed for t in self.wiring.back.members(group.back)):
            return
        if other := self._sources_on.get(group.back):
            yield from self._stray(group, source, other)
        else:
            root = self.wiring.root(self.wiring.back.members(group.back), group.users[0].node, "return")
            behind = tuple(end.node for end in group.users if end.node != root)
            yield NoReturn("missing-return", nodes=(root,), behind=behind, source=source)

    def _stray(self, group: Group, source: str, other: str) -> Iterator[Stray]:
        members = self.wiring.back.members(group.back)
        wrong = tuple(dict.fromkeys(end.minus for end in group.users))
        own = tuple(dict.fromkeys(end.minus for end in self.ends if self.wiring.back[end.minus] == group.back
                                  and end.minus not in wrong))
        bench = Bench(self.view.everything)
        cut = bench.cut(Conflict(members, wrong, own, joins=way_back))
        for key in cut.keys:
            path = bench.path(cut, key)
            yield Stray("stray-return", **bench.where(key), path=path, user=path[-1], source=source, other=other)

    @cached_property
    def _sources_on(self) -> dict[int, str]:
        """{return net: the first source on it}."""
        found: dict[int, str] = {}
        for end in self.ends:
            if end.gives:
                found.setdefault(self.wiring.back[end.minus], end.node)
        return found

    @cached_property
    def _roles(self) -> dict[str, str]:
        return {name: give.role for name, give in reversed(self.view.gives)}

    def _bare(self, group: Group) -> bool:
        return len(self.wiring.back.members(group.back)) == 1

    def _open(self, group: Group) -> bool:
        return any(node_of(terminal) in self.wiring.open for terminal in self.wiring.back.members(group.back))
