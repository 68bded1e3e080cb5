"""Parallel batteries do not share the current evenly: the one nearest to the take-off works hardest.

Why: that battery is cycled more and charged more than the others, ages first, and takes the rest of the bank
with it.

Fix: take the feed from the first battery and the return from the last, or give every battery leads of one size
and length to a pair of bars.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.paths import Paths, paths
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact, node_of
from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Flow
from diagrammer.rules.rule import finding
from diagrammer.rules.symptoms import incomplete
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)
SYMPTOMS = ("protection-too-small", "conductor-overloaded")

GOOD = """
nodes:
  left: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  right: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 100 W}
circuits:
  - {feed: left -> right, wire: 2 AWG 0.3 m}
  - {feed: left/fuse 50 A -> panel, return: right -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 15 A -> fan, wire: 12 AWG 2 m}
"""

BAD = """
nodes:
  left: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
# ^^^^ uneven-bank: feed and return of the bank are both taken from `left`, so that `right` behind it works less
  right: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 100 W}
circuits:
  - {feed: left -> right, wire: 2 AWG 0.3 m}
  - {feed: left/fuse 50 A -> panel, return: left -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 15 A -> fan, wire: 12 AWG 2 m}
"""
MOST = 1.1  # times its fair share that a battery may carry (practice of this program)
MAIN = 0.25  # of the bank's current: what leaves a post with less is no take-off
LANDINGS = ("bar", "joint", "panel", "terminals")  # no end of a way by themselves
LEAST = 0.01  # [A] below which nothing can be said


def check(survey: Survey) -> Iterator[Finding]:
    """An unmeasured return that lands on one battery's post loads that one: the cause is named, and nothing here."""
    for store in () if survey.of("unmeasured-return") else stores(survey.cleared).all:
        members = () if incomplete(survey, store) else _members(store)
        states = survey.study.solved if len(members) > 1 else ()
        busiest = max(states, key=lambda one: abs(store.amps(one.flow)), default=None)
        flow = _alike(busiest, store) if busiest else None
        if not flow or abs(store.amps(flow)) < LEAST:
            continue
        first = _taken_from_one(paths(survey.cleared), flow, members, abs(store.amps(flow)))
        if first:
            rest = [one for one in members if one != first]
            behind = f"{names(rest)} behind it {verb(rest, 'works', 'work')} less"
            message = f"feed and return of the bank are both taken from {name(first)}, so that {behind}"
            yield finding(__name__, survey, Fact("uneven-bank", nodes=(first, *rest)), message)
        else:
            yield from _unlike(survey, store, members, flow)


def _members(store: Store) -> tuple[str, ...]:
    """What stands side by side: the batteries of one level, or the uppermost of each string; none where unlike."""
    if len({(one.node["chemistry"], one.window.cells, round(one.capacity)) for one in store.cells.values()}) > 1:
        return ()
    levels = [level for string in store.stack.strings for level in string]
    if len(levels) == 1:
        return levels[0]
    return tuple(string[-1][0] for string in store.stack.strings) if max(map(len, levels)) == 1 else ()


def _unlike(survey: Survey, store: Store, members: tuple[str, ...], flow: Flow) -> Iterator[Finding]:
    """Each battery's share of the current, which is to be the same for all."""
    fair, shares = 1 / len(members), {one: flow.amps[one] / store.amps(flow) for one in members}
    first = max(members, key=lambda one: shares[one])
    if shares[first] > fair * MOST:
        rest = [one for one in members if one != first]
        carries = f"carries {100 * shares[first]:.0f} % of the bank's current where {100 * fair:.0f} % is its share"
        message = f"{name(first)} {carries}: its leads are shorter or thicker than those of {names(rest)}"
        yield finding(__name__, survey, Fact("uneven-bank", nodes=(first, *rest)), message)


def _alike(busiest: Operation, store: Store) -> Flow | None:
    """The flow with the resistance of the bank's batteries evened out: what is left is the leads' doing."""
    ohms = [one.ohms for one in busiest.network.sources if one.name in store.names]
    if len(set(ohms)) == 1:
        return busiest.flow
    even = sum(ohms) / len(ohms)
    sources = tuple(replace(one, ohms=even) if one.name in store.names else one for one in busiest.network.sources)
    found = solve(replace(busiest.network, sources=sources))
    return found if isinstance(found, Flow) else None


def _taken_from_one(found: Paths, flow: Flow, members: tuple[str, ...], total: float) -> str:
    """The one battery from whose two posts the whole bank's feed and return leave; "" where they are not of one."""
    ends = []
    for pole in "+-":
        posts = {f"{one}.{pole}" for one in members}
        leaving = {post: _leaving(found, flow, post, posts) for post in posts}
        ends.append({node_of(post) for post, amps in leaving.items() if amps > MAIN * total})
    feed, back = ends
    return feed.pop() if feed == back and len(feed) == 1 else ""


def _leaving(found: Paths, flow: Flow, post: str, posts: set[str]) -> float:
    """Current [A] that leaves a post towards anything but the other batteries' posts."""
    return sum(abs(flow.amps[key]) for other, key, *_ in found.near[post]
               if other not in posts and _outside(found, other, posts))


def _outside(found: Paths, start: str, posts: set[str]) -> bool:
    """Whether a way from here ends elsewhere than on these posts."""
    met, queue = {start, *posts}, [start]
    while queue:
        terminal = queue.pop()
        kind = found.view.system.nodes[node_of(terminal)].kind
        if kind.sort != "through" and kind.name not in LANDINGS:
            return True
        for other, *_ in found.near[terminal]:
            if other not in met:
                met.add(other)
                queue.append(other)
    return False
