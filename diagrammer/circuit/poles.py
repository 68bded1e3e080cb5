"""The two poles of direct current: short-circuit, reversed polarity, landings on the wrong side.

A net that holds both terminals of something that gives current is a short-circuit. A net that
holds terminals of both poles otherwise has a landing on the wrong side: the side with more nodes
is right, on a tie the one with the stronger node.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from diagrammer.circuit.blame import Bench, Conflict, once
from diagrammer.circuit.cuts import reach
from diagrammer.circuit.positions import LiveNet
from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.frozen import frozen

OPPOSITE = {"+": "-", "-": "+"}


@frozen
class Short(Fact):
    """source: the node whose terminals meet; ends: the two terminals."""

    source: str = ""
    ends: tuple[str, str] = ("", "")


@frozen
class Landing(Fact):
    """A terminal on the other pole's side. wrong: the nodes that stand wrong; right: the strongest
    node of the net; pole: that of the wrong terminals."""

    wrong: tuple[str, ...] = ()
    right: str = ""
    pole: str = ""


@frozen
class Reversal(Fact):
    """Both poles of `wrong` stand on the other's side; `other` is the cable of the second one."""

    wrong: tuple[str, ...] = ()
    other: str = ""


def find(view: View) -> tuple[Fact, ...]:
    """Short-circuits; then, in what is left, the landings on the wrong side."""
    shorts = tuple(once(_shorts(view)))
    after = view.without(shorts)
    return shorts + tuple(_paired(after, list(once(_landings(after)))))


def _shorts(view: View) -> Iterator[Short]:
    bench, stacks, sources = Bench(view), Stacks(view), _sources(view)
    for live in view.live:
        met = set(live.terminals)
        pairs = (pair for t in live.terminals for pair in sources.get(t, ()) if pair[2] in met)
        if source := next(pairs, None) or stacks.shorted(live.terminals):
            yield from _blamed(bench, live, source, stacks.inside(live.terminals))


def _sources(view: View) -> dict[str, list[tuple[str, str, str]]]:
    """{terminal: [(node, it, a terminal of another pole)]} of all that gives current."""
    found: dict[str, list[tuple[str, str, str]]] = {}
    for name, give in view.gives:
        poles = view.poles(name, give.port)
        if list(poles) == ["+"]:
            poles["-"] = view.pole(name, "main", "-")
        poles |= view.poles(name, "earth")
        for first, second in combinations(poles, 2):
            if second != "earth" or first.startswith("L"):  # a neutral or a - may be earthed
                found.setdefault(poles[first], []).append((name, poles[first], poles[second]))
    return found


def _blamed(bench: Bench, live: LiveNet, source: tuple[str, str, str], inner: bool) -> Iterator[Short]:
    """The cut between the poles of the net; of it the conductors that alone bring it about."""
    name, *ends = source
    sides = [(end,) if inner else _sided(bench.view, live, bench.view.side(end)) for end in ends]
    right, wrong = sorted(sides, key=lambda side: -len(_nodes(side)))
    cut = bench.cut(Conflict(live.terminals, wrong, right, live.combination.open))
    alone = [key for key in cut.keys if ends[1] in reach(cut.web, ends[:1], set(cut.keys) - {key})]
    for key in alone or cut.keys:
        yield Short("short-circuit", **bench.where(key), path=bench.path(cut, key), source=name, ends=tuple(ends))


def _sided(view: View, live: LiveNet, pole: str) -> tuple[str, ...]:
    return tuple(t for t in live.terminals if view.side(t) == pole)


def _nodes(terminals: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(map(node_of, terminals)))


def _landings(view: View) -> Iterator[Landing]:
    bench, stacks = Bench(view), Stacks(view)
    for live in view.live:
        plus, minus = (_sided(view, live, pole) for pole in "+-")
        if not plus or not minus or stacks.inside(live.terminals) or _loads_in_series(view, plus, minus):
            continue
        right, wrong = sorted((plus, minus), key=lambda side: (-len(_nodes(side)), _strength(view, side)[0]))
        cut = bench.cut(Conflict(live.terminals, wrong, right, live.combination.open))
        for key in cut.keys:
            near = reach(cut.web, bench.view.ends(key), cut.keys)
            stand = _nodes(t for t in wrong if t in near)
            yield Landing(
                _rule(view, key, plus is wrong), **bench.where(key), path=bench.path(cut, key),
                wrong=stand, right=_strength(view, right)[1], pole="+" if plus is wrong else "-",
            )


def _rule(view: View, key: str, plus: bool) -> str:
    role = getattr(view.edges[key]["value"], "role", "")
    side = {"feed": True, "return": False}.get(role, plus)
    return "unfed-node" if side else "missing-return"


def _loads_in_series(view: View, plus, minus) -> bool:
    """Loads whose + and - meet with nothing else on the net are in series, which is no mistake of
    poles."""
    return all(view.system.nodes[name].kind.uses for name in _nodes((*plus, *minus)))


def _strength(view: View, side: Iterable[str]) -> tuple[tuple[bool, ...], str]:
    """The rank and the name of the strongest node: bank, source, bar, load, one that gives back while it brakes too."""
    roles = {name: give.role for name, give in reversed(view.gives)}

    def rank(name: str) -> tuple[bool, ...]:
        return view.system.nodes[name].kind.uses, name not in roles, roles.get(name) != "storage"

    return min(((rank(name), name) for name in _nodes(side)), key=lambda pair: pair[0])


def _paired(view: View, landings: list[Landing]) -> Iterator[Fact]:
    """Two wrong landings, one a pole, of one line or one node are one reversal."""
    left = list(landings)
    while left:
        first = left.pop(0)
        second = next((other for other in left if _same(view, first, other)), None)
        if second is None:
            yield first
            continue
        left.remove(second)
        first, second = sorted((first, second), key=lambda landing: landing.rule != "unfed-node")
        yield Reversal(
            "reversed-polarity", first.cables, first.nodes, first.path, first.edge,
            wrong=_swapped(view, first, second), other=(second.cables or ("",))[0],
        )


def _swapped(view: View, first: Landing, second: Landing) -> tuple[str, ...]:
    """The nodes whose poles are swapped: those of the line itself rather than what hangs on them."""
    stops = {stop.node for leg in view.circuits[view.line(first)].legs for stop in leg.stops}
    shared = tuple(name for name in first.wrong if name in second.wrong) or (*first.wrong, *second.wrong)
    return tuple(name for name in dict.fromkeys(shared) if name in stops) or first.wrong


def _same(view: View, one: Landing, other: Landing) -> bool:
    if one.rule == other.rule:
        return False
    lines = {view.line(landing) for landing in (one, other)}
    return len(lines) == 1 or bool(set(one.wrong) & set(other.wrong))
