"""The measured side: all that a bank gives and takes must pass its shunt.

Common practice. The bank's shunt is taken out of the return side; the spine is what then lies
between the bank's negative and the shunt, and nothing else may hang on it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace

from diagrammer.circuit import cuts
from diagrammer.circuit.measured_shunts import Shunt, Sorted, sort
from diagrammer.circuit.measured_side import LANDINGS, Side
from diagrammer.circuit.mincut import minimum_cut
from diagrammer.circuit.nets import Nets
from diagrammer.circuit.view import Fact, View, node_of

APART = ("relay", "contactor", "isolator")  # banks on either side of these are not in parallel


@dataclass(frozen=True)
class Unmeasured(Fact):
    """things: the nodes whose current passes the shunt by. landing: the node on the bank's side where
    they land, beyond: the one at the far end. shunt: its name. bank: the bank measured. parallel: the
    things are a bank that stands parallel to it, and lands beyond the shunt. bypass: it joins both
    sides of the shunt."""

    things: tuple[str, ...] = ()
    landing: str = ""
    beyond: str = ""
    shunt: str = ""
    bank: str = ""
    parallel: bool = False
    bypass: bool = False


def find(view: View) -> tuple[Fact, ...]:
    """shunt-in-feed, shunt-backwards, unmeasured-return, no-shunt."""
    side = Side(view)
    shunts = sort(view, side)
    facts: list[Fact] = [Fact("shunt-in-feed", nodes=(name,)) for name in shunts.wrong]
    facts += [Fact("shunt-backwards", nodes=(shunt.name, *_faced(side, shunt))) for shunt in shunts.bank if shunt.backwards]
    return (*facts, *_unmeasured(view, side, shunts))


def _faced(side: Side, shunt: Shunt) -> tuple[str, ...]:
    """The bank nearest to the end that faces it, where one is reached."""
    reached = cuts.reach(side.without((shunt.edge,)), (shunt.bank,))
    return tuple(node_of(bank) for bank in sorted(_banks(side, reached), key=reached.get)[:1])


def _unmeasured(view: View, side: Side, shunts: Sorted) -> Iterator[Fact]:
    web = side.without(shunt.edge for shunt in shunts.bank)
    by_feed = _measured_in_feed(view, side, shunts.feed)
    done: set[str] = set()
    measured: list[str] = []
    for shunt in shunts.bank:
        if shunt.bank not in done:
            part = cuts.reach(web, (shunt.bank,))
            banks = _banks(side, part)
            done.update(part)
            if banks:
                measured += banks
                here = [s for s in shunts.bank if s.bank in part]
                yield from _hanging(view, side, {t: web[t] for t in part}, banks, here)
    yield from _alone(view, side, web, done, measured, by_feed, shunts.bank)


def _banks(side: Side, part: Iterable[str]) -> list[str]:
    """The negatives that make the bank of one part: the house's, or an engine's where there is no other."""
    return [t for t in part if t in side.houses] or [t for t in part if t in side.starters]


def _hanging(view: View, side: Side, web, banks: list[str], shunts: list[Shunt]) -> Iterator[Unmeasured]:
    """What hangs on the spine of one part, cut off as near to it as can be."""
    things = {t: None for t in web if t not in banks and not side.passes(t)}
    if not things:
        return
    near = dict.fromkeys(_spine(web, banks, [shunt.bank for shunt in shunts], things))
    behind: dict[str, tuple[str, ...]] = {}  # of each cut edge what hangs on it
    for branch, edges in _branches(web, near):
        if any(t in things for t in branch):
            keys, kept = (edges, ()) if len(edges) == 1 else _cut(side, web, near, branch, edges, things)
            behind.update((key, branch) for key in keys)
            near.update(dict.fromkeys(kept))
    for cut in _grouped(view, side, behind, near):
        beyond = dict.fromkeys(t for key in cut for t in behind[key])
        names = tuple(dict.fromkeys(node_of(t) for t in beyond if t in things))
        fact = _fact(view, side, cut, near, names, shunts[0].name, node_of(banks[0]))
        yield replace(fact, bypass=fact.beyond not in names and any(shunt.system in beyond for shunt in shunts))


def _branches(web, spine) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Each part of the web that the spine holds together: its terminals, and its edges to the spine."""
    met = set(spine)
    for start in [other for t in spine for other, _ in web[t]]:
        if start in met:
            continue
        branch, edges = [start], []
        met.add(start)
        for terminal in branch:  # grows while it is walked
            for other, key in web[terminal]:
                if other in spine:
                    edges.append(key)
                elif other not in met:
                    met.add(other)
                    branch.append(other)
        yield tuple(branch), tuple(edges)


def _cut(side: Side, web, spine, branch, edges, things) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The lightest cut of a branch that hangs by several edges, nearest to the spine, and the
    terminals it leaves there."""
    root = "\0spine"
    part = {t: [(root if key in edges else other, key) for other, key in web[t]] for t in branch}
    part[root] = [(t, key) for t in branch for _, key in web[t] if key in edges]
    _, keys = minimum_cut(part, (root,), [t for t in branch if t in things], side.weight)
    return keys, tuple(t for t in cuts.reach(part, (root,), keys) if t != root)


def _spine(web, banks: list[str], ends: list[str], things: Collection[str]) -> list[str]:
    """The terminals on simple paths between banks and shunts through what only passes current."""
    plain = {t: [(o, key) for o, key in found if o not in things] for t, found in web.items() if t not in things}
    source, sink = "\0banks", "\0shunts"
    for added, members in ((source, banks), (sink, ends)):
        plain[added] = [(member, f"{added} {member}") for member in members]
        for member in members:
            plain[member] = [*plain[member], (added, f"{added} {member}")]
    on = cuts.between(plain, source, sink)
    found = dict.fromkeys((*banks, *ends))
    found.update((t, None) for t, edges in plain.items() if any(key in on for _, key in edges))
    return [t for t in found if t not in (source, sink)]


def _grouped(view: View, side: Side, keys: Iterable[str], near) -> list[tuple[str, ...]]:
    """The cut edges; those that land on one bar together."""
    groups: dict[str, list[str]] = {}
    for key in keys:
        end = next(t for t in view.ends(key) if t in near)
        shared = side.node(end).kind.name in LANDINGS
        groups.setdefault(node_of(end) if shared else key, []).append(key)
    return [tuple(group) for group in groups.values()]


def _fact(view: View, side: Side, cut: tuple[str, ...], near, things: tuple[str, ...], shunt: str, bank: str,
          parallel: bool = False) -> Unmeasured:
    """At the conductor; at the bar where several land on it; at the thing where one is bolted on."""
    ends = view.ends(cut[0])
    landing, beyond = (node_of(t) for t in (ends if ends[0] in near else ends[::-1]))
    wires = tuple(view.edges[key]["value"].cable for key in cut if view.edges[key]["form"] == "conductor")
    path = tuple(dict.fromkeys((bank, landing, beyond, *things[:1])))
    fact = Unmeasured("unmeasured-return", wires, path=path, excuses=(shunt,), things=things, landing=landing,
                      beyond=beyond, shunt=shunt, bank=bank, parallel=parallel)
    if len(cut) > 1:
        return replace(fact, cables=(), nodes=(landing, *things), beyond="")
    return fact if wires else replace(fact, nodes=things, edge=cut[0])


def _alone(view: View, side: Side, web, done: set[str], measured: list[str], by_feed: set[str],
           shunts: tuple[Shunt, ...]) -> Iterator[Fact]:
    """Banks that no shunt faces: parallel to one that is measured, or not measured at all."""
    nets = Nets(view.graph, lambda data: _parallels(view, data)) if measured else None
    for bank in side.houses:
        if bank in done or side.houses[bank] in by_feed:
            continue
        part = cuts.reach(web, (bank,))
        done.update(part)
        others = [t for t in part if t in side.houses and side.houses[t] not in by_feed]
        beside = [t for t in others if _twin(view, side, nets, t, measured)]
        for t in beside:
            yield from _bypassing(view, side, {x: web[x] for x in part}, t, measured, nets, shunts)
        alone = [t for t in others if t not in beside and side.houses[t] not in view.excused]
        if alone and not _out(view):
            yield Fact("no-shunt", nodes=tuple(side.houses[t] for t in alone))


def _out(view: View) -> bool:
    """Whether a shunt of a bank stands on a line that an earlier fault took out."""
    return any(node.kind.name == "shunt" and not node.get("measures") and name in view.excused
               for name, node in view.system.nodes.items())


def _bypassing(view: View, side: Side, web, bank: str, measured: list[str], nets, shunts) -> Iterator[Unmeasured]:
    """The lead of a parallel bank that lands beyond the shunt."""
    ends = [shunt.system for shunt in shunts if shunt.system in web]
    if not ends:
        return
    _, keys = minimum_cut(web, (bank,), ends, side.weight)
    twin = _twin(view, side, nets, bank, measured)
    shunt = next((s for s in shunts if s.system in web), shunts[0])
    if keys:
        near = cuts.reach(web, (bank,), keys)
        yield _fact(view, side, keys[:1], near, (side.houses[bank],), shunt.name, node_of(twin), True)


def _twin(view: View, side: Side, nets: Nets | None, bank: str, measured: list[str]) -> str:
    """The measured bank that this one stands parallel to, "" where there is none."""
    if nets is None:
        return ""
    tops = {nets[plus]: minus for minus in reversed(measured) if minus in side.houses
            for plus in _tops(view, nets, side.houses[minus])}
    return next((tops[nets[plus]] for plus in _tops(view, nets, side.houses[bank]) if nets[plus] in tops), "")


def _tops(view: View, nets: Nets, name: str) -> list[str]:
    """The + at the top of the stack that stands on a battery: its own, where nothing stands on it."""
    poles = [(view.pole(one, give.port, "+"), view.pole(one, give.port, "-")) for one, give in view.gives
             if give.role == "storage"]
    above: dict[int, list[str]] = {}
    for plus, minus in poles:
        above.setdefault(nets[minus], []).append(plus)
    found, met = [view.pole(name, "main", "+")], set()
    for plus in found:  # grows while it is walked
        if nets[plus] not in met:
            met.add(nets[plus])
            found += above.get(nets[plus], ())
    return [plus for plus in found if nets[plus] not in above]


def _parallels(view: View, data) -> bool:
    form = data["form"]
    if form in ("conductor", "joint", "overcurrent", "shunt"):
        return data["side"] == "feed"
    return form == "contact" and view.system.nodes[data["value"].node].kind.name not in APART


def _measured_in_feed(view: View, side: Side, shunts: tuple[str, ...]) -> set[str]:
    """The banks on a feed net in which a shunt stands."""
    if not shunts:
        return set()
    ends = [t.id for t in view.system.terminals.values() if t.node in shunts and t.port in ("battery", "system")]
    nets = {view.nets[end] for end in ends}
    return {name for name in side.houses.values() if any(view.nets[top] in nets for top in _tops(view, view.nets, name))}
