"""The spine between a bank's negative and its shunt, and what hangs on it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from diagrammer.circuit import cuts
from diagrammer.circuit.measured_fact import Unmeasured, unmeasured
from diagrammer.circuit.measured_shunts import Shunt
from diagrammer.circuit.measured_side import LANDINGS, Side
from diagrammer.circuit.mincut import minimum_cut
from diagrammer.circuit.view import View, node_of


def hanging(view: View, side: Side, web, banks: list[str], shunts: list[Shunt]) -> Iterator[Unmeasured]:
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
        fact = unmeasured(view, cut, near, names, shunts[0].name, node_of(banks[0]))
        yield replace(fact, bypass=fact.beyond not in names and any(shunt.system in beyond for shunt in shunts))


def _branches(web, spine) -> Iterator[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Each part of the web that the spine holds together: its terminals, and its edges to the spine."""
    met = set(spine)
    for start in [other for t in spine for other, _ in web[t]]:
        if start not in met:
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
    terminals it leaves there, the root that stands for the spine among them."""
    root = "\0spine"
    part = {t: [(root if key in edges else other, key) for other, key in web[t]] for t in branch}
    part[root] = [(t, key) for t in branch for _, key in web[t] if key in edges]
    _, keys = minimum_cut(part, (root,), [t for t in branch if t in things], side.weight)
    return keys, tuple(cuts.reach(part, (root,), keys))


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
