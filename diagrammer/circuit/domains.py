"""Voltage domains: nets on which two voltages, or ac and dc, meet; turbines and pv on a bank.

Every port with a voltage claims it for the net it is on: a nominal V from V / 1.1 to 1.1 V, a
stated window drawn in by the same factor; ac one of a set from line to neutral, and one of a set
from line to line, as its cores are. The claims of a net that can be compared are grouped around the
point that most of the highest class accept (storage, then sources and the outputs of converters,
then inputs, then loads; file order on a tie). A claim that fits both groups takes no side.
Practice of this program, not of a standard.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from diagrammer.circuit.blame import Bench, Conflict, merged, once
from diagrammer.circuit.nets import LiveNet
from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.kinds.kind import Claim

SPREAD = 1.1  # a nominal voltage stands for what lies within this factor of it
CLASSES = ("storage", "source", "input", "load")


@dataclass(frozen=True)
class Stand:
    """A claim on a net: in each measure ("dc", "line to neutral", "line to line") the windows it
    accepts [V]. stated: as written [V]; height: above the foot of a stack of batteries [V]."""

    node: str
    terminal: str
    role: str
    accepts: Mapping[str, tuple[tuple[float, float], ...]]
    stated: tuple[float, float]
    height: float = 0.0

    @property
    def ac(self) -> bool:
        return "dc" not in self.accepts

    def takes(self, measure: str, volt: float) -> bool:
        return any(low <= volt <= high for low, high in self.accepts[measure])

    def meets(self, other: Stand) -> bool:
        """Whether some voltage suits both, where they can be compared at all."""
        return self.ac == other.ac and all(
            any(max(a, c) <= min(b, d) for a, b in self.accepts[measure] for c, d in other.accepts[measure])
            for measure in self.accepts if measure in other.accepts
        )


@dataclass(frozen=True)
class Clash(Fact):
    """Two groups of claims on one net: `wrong` and `right` are the foremost of each; `many` how
    many nodes stand on the wrong side."""

    wrong: Stand | None = None
    right: Stand | None = None
    many: int = 1


@dataclass(frozen=True)
class Uncontrolled(Fact):
    """source: the pv, wind or hydro; bank: the storage that it lands on."""

    source: str = ""
    bank: str = ""


def find(view: View) -> tuple[Fact, ...]:
    """Uncontrolled sources; then, in what is left, clashes of voltage."""
    uncontrolled = tuple(once(_uncontrolled(view)))
    return uncontrolled + tuple(once(_clashes(view.without(uncontrolled))))


def stand(view: View, stacks: Stacks, name: str, claim: Claim, terminal: str) -> Stand:
    """What a claim accepts on the net of this terminal."""
    if claim.volts:
        return Stand(name, terminal, claim.role, _ac(view, name, claim), (min(claim.volts), max(claim.volts)))
    low, high = claim.low / SPREAD, claim.high * SPREAD
    if claim.stated:
        low, high = claim.low * SPREAD, claim.high / SPREAD
        if low > high:  # too narrow to draw in: its middle has to do
            low = high = math.sqrt(claim.low * claim.high)
    below, above = stacks.height(view.pole(name, claim.port, "-"))
    window = (low + below / SPREAD, high + above * SPREAD)
    return Stand(name, terminal, claim.role, {"dc": (window,)}, (claim.low, claim.high), below)


def _ac(view: View, name: str, claim: Claim) -> dict[str, tuple[tuple[float, float], ...]]:
    """Line to neutral where one line and a neutral land, line to line where lines alone do; with
    several lines and a neutral the kind gives the first, then the second."""
    cores = view.ports[name, claim.port]
    lines = sum(pole.startswith("L") for pole in cores)
    windows = tuple((volt / math.sqrt(SPREAD), volt * math.sqrt(SPREAD)) for volt in claim.volts)
    if "N" not in cores:
        return {"line to line": windows}
    return {"line to neutral": windows} if lines == 1 else {"line to neutral": windows[:1], "line to line": windows[1:]}


def _stands(view: View, stacks: Stacks) -> dict[str, list[tuple[int, Stand]]]:
    """{terminal: [(place in the file's order, stand)]}."""
    found: dict[str, list[tuple[int, Stand]]] = {}
    for number, (name, claim) in enumerate(view.claims):
        for terminal in view.hot(name, claim.port):
            found.setdefault(terminal, []).append((number, stand(view, stacks, name, claim, terminal)))
    return found


def _uncontrolled(view: View) -> Iterator[Uncontrolled]:
    roles = {t: give.role for name, give in view.gives for t in view.hot(name, give.port)}
    if "raw" not in roles.values():
        return
    bench, kinds = Bench(view), {name: node.kind.name for name, node in view.system.nodes.items()}
    met, meant = [], _meant_for_raw(view)
    for live in view.live:
        raw = tuple(t for t in live.terminals if roles.get(t) == "raw")
        stored = tuple(t for t in live.terminals if roles.get(t) == "storage")
        if any(kinds[node_of(t)] == "dump controller" and view.side(t) == "+" for t in live.terminals):
            raw = tuple(t for t in raw if kinds[node_of(t)] == "pv")
        if raw and stored:
            wrong = raw + tuple(t for t in live.terminals if t in meant)
            met.append(Conflict(live.terminals, wrong, stored, live.combination.open, about=raw))
    for conflict in merged(met):
        sources = tuple(dict.fromkeys(map(node_of, conflict.about)))
        cut = bench.cut(conflict, besides=sources)
        for key in cut.keys:
            path = bench.path(cut, key)
            source = path[-1] if path[-1] in sources else sources[0]
            yield Uncontrolled("uncontrolled-source", **bench.where(key), path=path, source=source, bank=path[0])


def _meant_for_raw(view: View) -> frozenset[str]:
    """The live terminals of the ports that pv and turbines are meant to land on."""
    return frozenset(
        t for (name, port) in view.ports for t in view.hot(name, port)
        if port == "pv" or (port == "in" and view.system.nodes[name].kind.name == "wind charger")
    )


def _clashes(view: View) -> Iterator[Clash]:
    stands = _stands(view, Stacks(view))
    met = []
    for live in view.live:
        here = [pair for t in live.terminals for pair in stands.get(t, ())]
        if len(here) > 1:
            here.sort(key=lambda pair: pair[0])
            met += _conflicts(live, [stand for _, stand in here])
    bench, gone = Bench(view), set()
    for conflict in merged(met):
        yield from _blamed(bench, conflict, gone)


def _conflicts(live: LiveNet, stands: list[Stand]) -> Iterator[Conflict]:
    for first, other in conflicts(stands):
        right = [s for s in first if not all(s.meets(o) for o in other)] or first
        yield Conflict(live.terminals, _terminals(other), _terminals(right), live.combination.open, about=(other, right))


def _blamed(bench: Bench, conflict: Conflict, gone: set[str]) -> Iterator[Clash]:
    other, right = conflict.about
    cut = bench.cut(conflict, gone)
    for key in cut.keys:
        gone.add(bench.view.edges[key]["value"].circuit)
        first = _foremost(right)
        path = bench.path(cut, key, (first.terminal,))
        yield Clash(
            "wrong-domain", **bench.where(key), path=path, many=len({s.node for s in other}), right=first,
            wrong=_foremost([s for s in other if s.node == path[-1]] or other),
        )


def conflicts(stands: Sequence[Stand]) -> Iterator[tuple[list[Stand], list[Stand]]]:
    """The pairs of groups on one net that must not meet, the one in the right first: ac and dc,
    then in each measure the voltage that most accept and every other."""
    kinds = [[s for s in stands if s.ac], [s for s in stands if not s.ac]]
    if all(kinds):
        yield tuple(sorted(kinds, key=_weight))
    for measure in ("dc", "line to neutral", "line to line"):
        first, *others = groups([s for s in stands if measure in s.accepts], measure)
        for other in others:
            yield first, other


def _weight(stands: Iterable[Stand]) -> tuple[int, ...]:
    """How many claims of each class, most first: the smaller outweighs."""
    roles = [s.role for s in stands]
    return tuple(-roles.count(role) for role in CLASSES)


def groups(stands: Sequence[Stand], measure: str) -> list[list[Stand]]:
    """Comparable claims of one net around the voltages that most accept."""
    left, found = list(stands), []
    while left:
        volt = _best(left, measure)
        found.append([s for s in left if s.takes(measure, volt)])
        left = [s for s in left if not s.takes(measure, volt)]
    return found or [[]]


def _best(stands: Sequence[Stand], measure: str) -> float:
    alike: dict[tuple, list[int]] = {}  # claims of one class and windows: how many, the first of them
    sample: dict[tuple, Stand] = {}
    for number, one in enumerate(stands):
        key = (one.role, one.accepts[measure])
        alike.setdefault(key, [0, number])[0] += 1
        sample.setdefault(key, one)
    volts = dict.fromkeys(
        volt for one in sample.values() for low, high in one.accepts[measure]
        for volt in (math.sqrt(low * high), low, high)
    )

    def rank(volt: float) -> tuple:
        taken = [key for key, one in sample.items() if one.takes(measure, volt)]
        counts = [-sum(alike[key][0] for key in taken if key[0] == role) for role in CLASSES]
        return *counts, min((alike[key][1] for key in taken), default=len(stands))

    return min(volts, key=rank)


def _terminals(stands: Iterable[Stand]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(s.terminal for s in stands))


def _foremost(stands: Iterable[Stand]) -> Stand:
    """The first of the highest class."""
    return min(stands, key=lambda s: CLASSES.index(s.role))
