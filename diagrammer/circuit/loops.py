"""Ways there and back: open ends, unused nodes, nodes that nothing feeds, returns that lead nowhere.

Looked at on the whole graph; what earlier faults excuse is left out. An open end is named instead
of the nodes behind it, an unfed converter instead of what it should feed, a bar or panel without
its own link instead of what hangs on it.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.blame import once
from diagrammer.circuit.loops_back import Stray, ways_back
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.circuit.wiring import Wiring
from diagrammer.frozen import frozen


@frozen
class Unfed(Fact):
    """behind: the other nodes on the same dead net, for whom it is named."""

    behind: tuple[str, ...] = ()


def find(view: View) -> tuple[Fact, ...]:
    """All of them, each node named once; what is excused is left out."""
    wiring = Wiring(view)
    facts = (*_unused(wiring), *_open_ends(wiring), *_unfed(wiring), *ways_back(wiring))
    return tuple(fact for fact in once(facts) if _blamed(fact) not in wiring.excused)


def _blamed(fact: Fact) -> str:
    return fact.user if isinstance(fact, Stray) else fact.nodes[0]


def _unused(wiring: Wiring) -> Iterator[Fact]:
    touched = {node_of(terminal) for terminal, number in wiring.degree.items() if number}
    for name in wiring.nodes:
        if name not in touched:
            yield Fact("unused-node", nodes=(name,))


def _open_ends(wiring: Wiring) -> Iterator[Fact]:
    """Also a source of dc whose return alone is wired; of a converter what it should feed is named."""
    for name in wiring.open:
        yield Fact("open-end", nodes=(name,))
    for name, give in wiring.view.gives:
        plus, minus = (wiring.view.pole(name, give.port, sign) for sign in "+-")
        bare = minus and wiring.degree[minus] and not wiring.degree[plus] and name not in wiring.supply.inputs
        if bare and wiring.nets[minus] not in wiring.stacks.inner:
            yield Fact("open-end", nodes=(name,))


def _unfed(wiring: Wiring) -> Iterator[Unfed]:
    """One finding for each dead net."""
    _, fed = wiring.fed
    dead: dict[int, list[str]] = {}
    for name, ports in wiring.supply.inputs.items():
        if name not in fed and name in wiring.wired and name not in wiring.excused:
            for terminal in [t for port in ports for t in wiring.view.hot(name, port)][:1]:
                dead.setdefault(wiring.nets[terminal], []).append(name)
    outputs = {t for name, give in wiring.view.gives for t in wiring.view.hot(name, give.port)}
    for net, names in dead.items():
        terminals = wiring.nets.members(net)
        here = dict.fromkeys(map(node_of, terminals))
        if any(name in wiring.open for name in here) or any(t in outputs or t in wiring.crossed for t in terminals):
            continue  # an open end says it; what should feed it is unfed itself; poles are crossed
        root = wiring.root(terminals, names[0], "feed", "ac")
        yield Unfed("unfed-node", nodes=(root,), behind=tuple(name for name in names if name != root))
