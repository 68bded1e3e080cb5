"""Ways there and back: open ends, unused nodes, nodes that nothing feeds, returns that lead nowhere.

Looked at on the whole graph; what earlier faults excuse is left out. An open end is named instead
of the nodes behind it, an unfed converter instead of what it should feed, a bar or panel without
its own link instead of what hangs on it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from diagrammer.circuit.blame import Bench, Conflict, once
from diagrammer.circuit.nets import PASSES, Nets
from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.supply import MAKES, Supply
from diagrammer.circuit.view import GROUND, Fact, View, node_of

GATHERS = ("bar", "panel", "ac panel")  # what others hang on; a spare one leads nowhere by intent
STUDS = ("joint", "terminals")  # what only joins conductors


@dataclass(frozen=True)
class Open(Fact):
    """`wired` is how many conductors reach the node that leads nowhere."""

    wired: int = 0


@dataclass(frozen=True)
class Unfed(Fact):
    """behind: the other nodes on the same dead net, for whom it is named."""

    behind: tuple[str, ...] = ()


@dataclass(frozen=True)
class NoReturn(Fact):
    """behind: the nodes whose way back it should be; source: what feeds them; bare: no conductor
    lands on its return at all."""

    behind: tuple[str, ...] = ()
    source: str = ""
    bare: bool = False


@dataclass(frozen=True)
class Stray(Fact):
    """user returns to the side of `other`, while `source` feeds it."""

    user: str = ""
    source: str = ""
    other: str = ""


def find(view: View) -> tuple[Fact, ...]:
    """All of them, each node named once; what is excused is left out."""
    loops = Loops(view)
    facts = (*loops.unused(), *loops.open_ends(), *loops.unfed(), *loops.ways_back())
    return tuple(fact for fact in once(facts) if not loops.excused(fact))


class Loops:
    """The questions, and what they share."""

    def __init__(self, view: View):
        self.view = view
        self.nodes = view.system.nodes

    def excused(self, fact: Fact) -> bool:
        return (fact.user if isinstance(fact, Stray) else fact.nodes[0]) in self.view.excused

    @cached_property
    def degree(self) -> dict[str, int]:
        """How many conductors and joints land on each terminal; the cores of a cable are one."""
        landings: dict[str, set] = {terminal: set() for terminal in self.view.whole}
        for a, b, key, data in self.view.whole.edges(keys=True, data=True):
            if data["form"] in ("conductor", "joint"):
                mark = getattr(data["value"], "cable", key)
                landings[a].add(mark)
                landings[b].add(mark)
        return {terminal: len(marks) for terminal, marks in landings.items()}

    @cached_property
    def wired(self) -> dict[str, int]:
        """How many conductors and joints land on each node, those of its own two ends twice."""
        found = dict.fromkeys(self.nodes, 0)
        for terminal, number in self.degree.items():
            if self.view.system.terminals[terminal].pole not in ("N", "earth"):
                found[node_of(terminal)] += number
        return found

    def unused(self) -> Iterator[Fact]:
        touched = {node_of(terminal) for terminal, number in self.degree.items() if number}
        for name, node in self.nodes.items():
            if node.declared and name not in touched:
                yield Fact("unused-node", nodes=(name,))

    @cached_property
    def open(self) -> tuple[str, ...]:
        """The nodes that lead nowhere, in file order."""
        return tuple(name for name, node in self.nodes.items() if self._leads_nowhere(name, node))

    def open_ends(self) -> Iterator[Open]:
        for name in self.open:
            yield Open("open-end", nodes=(name,), wired=1)

    def _leads_nowhere(self, name: str, node) -> bool:
        kind, values = node.kind, node.values
        if kind.name in STUDS:
            return self._ends_here(name)
        if kind.name in GATHERS:
            return False
        passive = not (kind.uses or kind.gives(values) or kind.supplies(values)) and kind.name not in GROUND
        return passive and any(
            sum(bool(self.degree[t]) for t in group) == 1 for group in self._passages.get(name, ())
        )

    def _ends_here(self, name: str) -> bool:
        """A stud, pin or junction on which a single conductor lands."""
        terminals = (t for (node, _), port in self.view.ports.items() if node == name for t in port.values())
        return any(self.degree[terminal] == 1 for terminal in terminals if self.view.side(terminal) not in ("N", "earth"))

    @cached_property
    def _passages(self) -> dict[str, list[list[str]]]:
        """{node: groups of its terminals that some position joins}."""
        parts = Nets(self.view.whole, lambda data: data["form"] in (*PASSES, "resistor", "capacitor"))
        found: dict[str, list[list[str]]] = {}
        for group in parts:
            if len(group) > 1:
                found.setdefault(node_of(group[0]), []).append(list(group))
        return found

    @cached_property
    def supply(self) -> Supply:
        return Supply(self.view, self.view.whole)

    @cached_property
    def stacks(self) -> Stacks:
        return Stacks(self.view.everything)

    @cached_property
    def nets(self) -> Nets:
        """What is joined where every position counts as closed."""
        return Nets(self.view.whole, lambda data: data["form"] in ("conductor", "joint", "resistor", *PASSES))

    def unfed(self) -> Iterator[Unfed]:
        reached, fed = self.supply.fed()
        dead: dict[int, list[str]] = {}
        for name, ports in self.supply.inputs.items():
            if name not in fed and self.wired[name] and name not in self.view.excused:
                for terminal in [t for port in ports for t in self.view.hot(name, port)][:1]:
                    dead.setdefault(self.nets[terminal], []).append(name)
        for net, names in dead.items():
            yield from self._dead(self.nets.members(net), names, fed)

    def _dead(self, terminals: tuple[str, ...], names: list[str], fed: frozenset[str]) -> Iterator[Unfed]:
        here = dict.fromkeys(map(node_of, terminals))
        if any(name in self.open for name in here):
            return
        outputs = {t for name, give in self.view.gives for t in self.view.hot(name, give.port)}
        if any(t in outputs for t in terminals):
            return  # what should feed it is unfed itself
        root = next((name for name in here if self.nodes[name].kind.name in (*GATHERS, *STUDS)), names[0])
        yield Unfed("unfed-node", nodes=(root,), behind=tuple(name for name in names if name != root))

    @cached_property
    def back(self) -> Nets:
        """Return sides: what is joined without passing the inside of a converter or a bond."""
        return Nets(self.view.whole, lambda data: _way_back(data) or self._single_stud(data))

    def _single_stud(self, data) -> bool:
        return data["form"] == "common" and self.nodes[data["value"].node].get("common") == "one"

    def ways_back(self) -> Iterator[Fact]:
        groups: dict[int, dict[int, tuple[list, list]]] = {}
        for name, minus, hot, gives in self._loops():
            users, sources = groups.setdefault(self.nets[hot], {}).setdefault(self.back[minus], ([], []))
            if gives:
                sources.append((name, minus))
            elif name not in self.view.excused:
                users.append((name, minus))
        for feed, by_return in groups.items():
            yield from self._returns(feed, by_return)

    def _loops(self) -> Iterator[tuple[str, str, str, bool]]:
        """(node, its way back, its live terminal, whether it gives) of all that need a way back."""
        inputs = self.supply.inputs
        for name, give in self.view.gives:
            plus, minus = (self.view.pole(name, give.port, pole) for pole in "+-")
            minus = minus or self.view.pole(name, "main", "-")
            if plus and minus and give.port not in inputs.get(name, ()):
                yield name, minus, plus, True
                if (foot := self.stacks.foot(minus)) != minus:
                    yield name, foot, plus, True
        for name in self.nodes:
            for port in (*inputs.get(name, ()), "coil"):
                plus, minus = self.view.pole(name, port, "+"), self.view.pole(name, port, "-")
                if plus and minus and (self.degree[plus] or self.degree[minus]):
                    yield name, minus, plus, False

    def _returns(self, feed: int, by_return) -> Iterator[Fact]:
        """A source whose own way back is bare is named for the groups that miss it, a converter
        only where no group does."""
        source = next((name for _, sources in by_return.values() for name, _ in sources), "")
        lost = {net: users for net, (users, sources) in by_return.items() if users and not sources}
        lone = {sources[0][0]: net for net, (_, sources) in by_return.items() if sources and self._alone(sources[0], net)}
        roles = {name: give.role for name, give in self.view.gives}
        if any(len(self.back.members(net)) > 1 for net in lost):
            lone = {name: net for name, net in lone.items() if roles[name] in MAKES}
        yield from (NoReturn("missing-return", nodes=(name,), bare=True) for name in lone)
        hidden = bool(lone) or any(sources and self._open(net) for net, (_, sources) in by_return.items())
        for net, users in lost.items() if source and self._live(feed) else ():
            if len(self.back.members(net)) == 1:
                yield NoReturn("missing-return", nodes=(users[0][0],), source=source, bare=True)
            elif not hidden and not self._open(net):
                yield from self._lost(net, users, source)

    def _alone(self, pair: tuple[str, str], net: int) -> bool:
        return len(self.back.members(net)) == 1 and self.degree[self._hot(pair)] > 0

    def _hot(self, pair: tuple[str, str]) -> str:
        name, minus = pair
        return self.view.pole(name, self.view.system.terminals[minus].port, "+")

    def _live(self, feed: int) -> bool:
        reached, _ = self._fed
        return any(terminal in reached for terminal in self.nets.members(feed))

    @cached_property
    def _fed(self):
        return self.supply.fed()

    def _open(self, net: int) -> bool:
        return any(node_of(terminal) in self.open for terminal in self.back.members(net))

    def _lost(self, net: int, users: list, source: str) -> Iterator[Fact]:
        """Users whose returns meet where no source of theirs does: on another's side, or nowhere."""
        members = self.back.members(net)
        other = next((name for name, minus, _, gives in self._loops() if gives and self.back[minus] == net), "")
        if other:
            yield from self._stray(members, users, source, other)
            return
        here = dict.fromkeys(map(node_of, members))
        root = next((name for name in here if self.nodes[name].kind.name in (*GATHERS, *STUDS, *GROUND)), users[0][0])
        behind = tuple(name for name, _ in users if name != root)
        yield NoReturn("missing-return", nodes=(root,), behind=behind, source=source)

    def _stray(self, members: Iterable[str], users: list, source: str, other: str) -> Iterator[Stray]:
        wrong = tuple(minus for _, minus in users)
        own = [minus for name, minus, _, _ in self._loops() if minus in set(members) and minus not in wrong]
        bench = Bench(self.view.everything)
        cut = bench.cut(Conflict(tuple(members), wrong, tuple(own), joins=_way_back))
        for key in cut.keys:
            path = bench.path(cut, key)
            yield Stray("stray-return", **bench.where(key), path=path, user=path[-1], source=source, other=other)


def _way_back(data: Mapping) -> bool:
    """Whether a return may pass: through anything but the inside of a converter or a bond."""
    return data["form"] in ("joint", "resistor", *PASSES) or (
        data["form"] == "conductor" and data["value"].role != "bond")
