"""Sources of alternating current that can feed one net at once.

Two that run as one `set`, that an interlock or a transfer keeps apart, a pv inverter (which only
follows) and an inverter charger that passes the other through are not two sources.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from diagrammer.circuit.blame import Bench, Conflict, merged, once
from diagrammer.circuit.positions import LiveNet
from diagrammer.circuit.view import Fact, View, node_of

FOLLOWS = ("pv inverter",)


@dataclass(frozen=True)
class TwoSources(Fact):
    """first and second: the sources that meet; positions: of the multi-way nodes that let them."""

    first: str = ""
    second: str = ""
    positions: tuple[tuple[str, str], ...] = ()


def find(view: View) -> tuple[Fact, ...]:
    lines, bench = _lines(view), Bench(view)
    met = [conflict for live in view.live for conflict in _meeting(view, live, lines)]
    return tuple(once(fact for conflict in merged(met) for fact in _blamed(bench, conflict)))


def _blamed(bench: Bench, conflict: Conflict) -> Iterator[TwoSources]:
    cut = bench.cut(conflict)
    for key in cut.keys:
        first, second, positions = conflict.about
        path = bench.path(cut, key)
        yield TwoSources("two-ac-sources", **bench.where(key), path=path, first=first, second=second, positions=positions)


def _lines(view: View) -> dict[str, tuple[int, tuple[str, ...]]]:
    """{line terminal: (place in file order, positions in which it gives)} of sources of ac."""
    found = {}
    for number, (name, give) in enumerate(view.gives):
        if view.system.nodes[name].kind.name not in FOLLOWS:
            for terminal in view.hot(name, give.port):
                if view.side(terminal).startswith("L"):
                    found[terminal] = (number, give.positions)
    return found


def _meeting(view: View, live: LiveNet, lines) -> Iterator[Conflict]:
    """Each source of the net against those before it in the file."""
    giving = sorted((lines[t][0], t) for t in live.terminals if t in lines and _gives(view, live, t, lines[t][1]))
    units: dict[str, list[str]] = {}
    for _, terminal in giving:
        units.setdefault(_unit(view, terminal), []).append(terminal)
    names, terminals = list(units), list(units.values())
    positions = tuple(live.combination.positions.items())
    for number in range(1, len(names)):
        before = tuple(t for group in terminals[:number] for t in group)
        about = (node_of(before[0]), node_of(terminals[number][0]), positions)
        yield Conflict(live.terminals, tuple(terminals[number]), before, live.combination.open, about=about)


def _gives(view: View, live: LiveNet, terminal: str, positions: tuple[str, ...]) -> bool:
    """Whether a source makes the voltage here, rather than passing or following another's."""
    name = node_of(terminal)
    chosen = live.combination.positions.get(name)
    if chosen is not None and positions and chosen not in positions:
        return False
    met = set(live.terminals)
    return not any(
        data["form"] == "contact" and key not in live.combination.open and other in met
        for other, edges in view.graph.adj[terminal].items() if node_of(other) == name
        for key, data in edges.items()
    )


def _unit(view: View, terminal: str) -> str:
    """What runs as one source: the `set` of a node, or the node itself."""
    name = node_of(terminal)
    return f"set {view.system.nodes[name].get('set')}" if view.system.nodes[name].get("set") else name
