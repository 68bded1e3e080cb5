"""Sources of alternating current that can feed one net at once.

Two that run as one `set`, that an interlock or a transfer keeps apart, a pv inverter (which only
follows) and an inverter charger that passes the other through are not two sources.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from diagrammer.circuit.blame import Bench, once
from diagrammer.circuit.nets import LiveNet
from diagrammer.circuit.view import Fact, View, node_of

FOLLOWS = ("pv inverter",)


@dataclass(frozen=True)
class TwoSources(Fact):
    """first and second: the sources that meet; positions: of the multi-way nodes that let them."""

    first: str = ""
    second: str = ""
    positions: tuple[tuple[str, str], ...] = ()


def find(view: View) -> tuple[Fact, ...]:
    lines = _lines(view)
    bench = Bench(view)
    return tuple(once(fact for live in view.positions.live() for fact in _meeting(bench, live, lines)))


def _lines(view: View) -> dict[str, tuple[int, tuple[str, ...]]]:
    """{line terminal: (place in file order, positions in which it gives)} of sources of ac."""
    found = {}
    for number, (name, give) in enumerate(view.gives):
        if view.system.nodes[name].kind.name not in FOLLOWS:
            for terminal in view.hot(name, give.port):
                if view.side(terminal).startswith("L"):
                    found[terminal] = (number, give.positions)
    return found


def _meeting(bench: Bench, live: LiveNet, lines) -> Iterator[TwoSources]:
    giving = sorted((lines[t][0], t) for t in live.terminals if t in lines and _gives(bench.view, live, t, lines[t][1]))
    kept: dict[str, list[str]] = {}
    for _, terminal in giving:
        kept.setdefault(_set(bench.view, terminal), []).append(terminal)
    first, *others = kept.values() or [()]
    for number, other in enumerate(others):
        right = [t for group in list(kept.values())[:number + 1] for t in group]
        cut = bench.cut(live.terminals, other, right, live.combination.open)
        for key in cut.keys:
            yield TwoSources(
                "two-ac-sources", **bench.where(key), path=bench.path(cut, key, other, right),
                first=node_of(first[0]), second=node_of(other[0]), positions=tuple(live.combination.positions.items()),
            )


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


def _set(view: View, terminal: str) -> str:
    name = node_of(terminal)
    return f"set {view.system.nodes[name].get('set')}" if view.system.nodes[name].get("set") else name
