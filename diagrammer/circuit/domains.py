"""Voltage domains: nets on which two voltages, or ac and dc, meet; turbines and pv on a bank.

Every port with a voltage claims it for the net it is on: a nominal V from V / 1.1 to 1.1 V, a
stated window drawn in by the same factor, ac one of a set. The claims of a net are grouped around
the point that most of the highest class accept (storage, then sources and the outputs of
converters, then inputs, then loads; file order on a tie). A claim that fits both groups takes no
side. Practice of this program, not of a standard.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from diagrammer.circuit.blame import Bench, once
from diagrammer.circuit.nets import LiveNet
from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.kinds.kind import Claim

SPREAD = 1.1  # a nominal voltage stands for what lies within this factor of it
CLASSES = ("storage", "source", "input", "load")


@dataclass(frozen=True)
class Stand:
    """A claim on a net. dc: accepts low to high [V]; ac: one of volts [V]. stated: as written [V];
    height: what it stands above the foot of a stack of batteries [V]."""

    node: str
    terminal: str
    role: str
    low: float
    high: float
    volts: tuple[float, ...]
    stated: tuple[float, float]
    height: float = 0.0

    @property
    def ac(self) -> bool:
        return bool(self.volts)

    def accepts(self, point: tuple[bool, float]) -> bool:
        ac, volt = point
        if ac != self.ac:
            return False
        return any(volt / SPREAD <= v <= volt * SPREAD for v in self.volts) if ac else self.low <= volt <= self.high

    def points(self) -> Iterator[tuple[bool, float]]:
        for volt in self.volts or dict.fromkeys((math.sqrt(self.low * self.high), self.low, self.high)):
            yield self.ac, volt


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
    low, high = claim.low, claim.high
    if claim.stated and not claim.volts:
        low, high = low * SPREAD, high / SPREAD
        if low > high:  # too narrow to draw in: its middle has to do
            low = high = math.sqrt(claim.low * claim.high)
    elif not claim.volts:
        low, high = low / SPREAD, high * SPREAD
    rise = (0.0, 0.0) if claim.volts else stacks.height(view.pole(name, claim.port, "-"))
    return Stand(name, terminal, claim.role, low + rise[0] / SPREAD, high + rise[1] * SPREAD, claim.volts,
                 (claim.low, claim.high), rise[0])


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
    for live in view.positions.live():
        raw = [t for t in live.terminals if roles.get(t) == "raw"]
        stored = [t for t in live.terminals if roles.get(t) == "storage"]
        if any(kinds[node_of(t)] == "dump controller" and view.side(t) == "+" for t in live.terminals):
            raw = [t for t in raw if kinds[node_of(t)] == "pv"]
        if not raw or not stored:
            continue
        cut = bench.cut(live.terminals, raw, stored, live.combination.open)
        for key in cut.keys:
            path = bench.path(cut, key, raw, stored)
            yield Uncontrolled("uncontrolled-source", **bench.where(key), path=path, source=path[-1], bank=path[0])


def _clashes(view: View) -> Iterator[Clash]:
    bench, stands = Bench(view), _stands(view, Stacks(view))
    for live in view.positions.live():
        here = [pair for t in live.terminals for pair in stands.get(t, ())]
        if len(here) > 1:
            here.sort(key=lambda pair: pair[0])
            yield from _blamed(bench, live, [stand for _, stand in here])


def _blamed(bench: Bench, live: LiveNet, stands: list[Stand]) -> Iterator[Clash]:
    first, *others = groups(stands)
    gone: set[str] = set()
    for other in others:
        right = [s for s in first if not _fits(s, other)] or first
        wrong, sure = _terminals(other), _terminals(right)
        cut = bench.cut(live.terminals, wrong, sure, live.combination.open, gone)
        for key in cut.keys:
            gone.add(bench.view.edges[key]["value"].circuit)
            path = bench.path(cut, key, wrong, sure)
            yield Clash(
                "wrong-domain", **bench.where(key), path=path, many=len({s.node for s in other}),
                wrong=_foremost(s for s in other if s.node == path[-1]) or other[0],
                right=_foremost(s for s in right if s.node == path[0]) or right[0],
            )


def groups(stands: Sequence[Stand]) -> list[list[Stand]]:
    """The claims of one net around the voltages that most accept; one group where they agree."""
    left, found = list(stands), []
    while left:
        point = _best(left)
        found.append([s for s in left if s.accepts(point)])
        left = [s for s in left if not s.accepts(point)]
    return found


def _best(stands: Sequence[Stand]) -> tuple[bool, float]:
    alike: dict[tuple, list[int]] = {}  # claims of one class and interval: how many, the first of them
    sample: dict[tuple, Stand] = {}
    for number, one in enumerate(stands):
        key = (one.role, one.low, one.high, one.volts)
        alike.setdefault(key, [0, number])[0] += 1
        sample.setdefault(key, one)
    points = list(dict.fromkeys(point for one in sample.values() for point in one.points()))

    def rank(point: tuple[bool, float]) -> tuple:
        accepted = [key for key, one in sample.items() if one.accepts(point)]
        counts = [-sum(alike[key][0] for key in accepted if key[0] == role) for role in CLASSES]
        return *counts, min(alike[key][1] for key in accepted)

    return min(points, key=rank)


def _fits(one: Stand, group: Iterable[Stand]) -> bool:
    """Whether a claim accepts some voltage that all of a group accept."""
    group = list(group)
    if one.ac != group[0].ac:
        return False
    if one.ac:
        return any(all(s.accepts((True, v)) for s in group) for v in one.volts)
    low, high = max(s.low for s in group), min(s.high for s in group)
    return max(low, one.low) <= min(high, one.high)


def _terminals(stands: Iterable[Stand]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(s.terminal for s in stands))


def _foremost(stands: Iterable[Stand]) -> Stand | None:
    return min(stands, key=lambda s: CLASSES.index(s.role), default=None)
