"""Voltage domains: nets on which two voltages, or ac and dc, meet; turbines and pv on a bank.

Every port with a voltage claims it for the net it is on (stands.py). A claim that fits both of two
groups takes no side; the blame is the cut between the others.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from diagrammer.circuit.blame import Bench, Conflict, merged, once
from diagrammer.circuit.positions import LiveNet
from diagrammer.circuit.stands import CLASSES, Stand, conflicts, stands
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.frozen import frozen


@frozen
class Clash(Fact):
    """Two groups of claims on one net: `wrong` and `right` are the foremost of each; `many` how
    many nodes stand on the wrong side."""

    wrong: Stand | None = None
    right: Stand | None = None
    many: int = 1


@frozen
class Uncontrolled(Fact):
    """source: the pv, wind or hydro; bank: the storage that it lands on."""

    source: str = ""
    bank: str = ""


def find(view: View) -> tuple[Fact, ...]:
    """Uncontrolled sources; then, in what is left, clashes of voltage."""
    uncontrolled = tuple(once(_uncontrolled(view)))
    return uncontrolled + tuple(once(_clashes(view.without(uncontrolled))))


def _uncontrolled(view: View) -> Iterator[Uncontrolled]:
    roles = {t: give.role for name, give in view.gives for t in view.hot(name, give.port)}
    if "raw" not in roles.values():
        return
    bench, kinds = Bench(view), {name: node.kind.name for name, node in view.system.nodes.items()}
    met, meant = [], _meant_for_raw(view)
    plus = {t.id for t in view.system.terminals.values() if t.pole == "+"}
    for live in view.live:
        raw = tuple(t for t in live.terminals if roles.get(t) == "raw")
        stored = tuple(t for t in live.terminals if roles.get(t) == "storage")
        if any(kinds[node_of(t)] == "dump controller" for t in live.terminals):
            raw = tuple(t for t in raw if kinds[node_of(t)] == "pv")
        if raw and stored:
            wrong = raw + tuple(t for t in live.terminals if t in meant)
            right = tuple(t for t in live.terminals if t in plus and t not in wrong)
            met.append(Conflict(live.terminals, wrong, right, live.combination.open, about=(raw, stored)))
    for conflict in merged(met):
        raw, stored = conflict.about
        sources = tuple(dict.fromkeys(map(node_of, raw)))
        cut = bench.cut(conflict, besides=sources)
        for key in cut.keys:
            path = bench.path(cut, key, stored)
            source = path[-1] if path[-1] in sources else sources[0]
            yield Uncontrolled("uncontrolled-source", **bench.where(key), path=path, source=source, bank=path[0])


def _meant_for_raw(view: View) -> frozenset[str]:
    """The live terminals of the ports that pv and turbines are meant to land on."""
    return frozenset(
        t for name, node in view.system.nodes.items() for port in ("pv", "in") for t in view.hot(name, port)
        if port == "pv" or node.kind.name == "wind charger"
    )


def _clashes(view: View) -> Iterator[Clash]:
    claims = stands(view)
    met = []
    for live in view.live:
        here = sorted((pair for t in live.terminals for pair in claims.get(t, ())), key=lambda pair: pair[0])
        met += _conflicts(live, [one for _, one in here])
    bench, gone = Bench(view), set()
    for conflict in merged(met):
        yield from _blamed(bench, conflict, gone)


def _conflicts(live: LiveNet, here: list[Stand]) -> Iterator[Conflict]:
    for first, other in conflicts(here):
        right = [s for s in first if not all(s.meets(o) for o in other)]
        yield Conflict(
            live.terminals, _terminals(other), _terminals(right), live.combination.open, about=(other, right))


def _blamed(bench: Bench, conflict: Conflict, gone: set[str]) -> Iterator[Clash]:
    other, right = conflict.about
    cut = bench.cut(conflict, gone)
    for key in cut.keys:
        gone.add(bench.view.edges[key]["value"].circuit)
        first = _foremost(right)
        path = bench.path(cut, key, (first.terminal,))
        yield Clash(
            "wrong-domain", **bench.where(key), path=path, many=len({s.node for s in other}), right=first,
            wrong=_foremost([s for s in other if s.node == path[-1]]),
        )


def _terminals(stands: Iterable[Stand]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(s.terminal for s in stands))


def _foremost(stands: Iterable[Stand]) -> Stand:
    """The first of the highest class."""
    return min(stands, key=lambda s: CLASSES.index(s.role))
