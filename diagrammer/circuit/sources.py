"""Sources of alternating current that can feed one net at once.

Two that run as one `set`, that an interlock or a transfer keeps apart, a pv inverter (which only
follows) and an inverter charger that passes the other through are not two sources.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from diagrammer.circuit.blame import Bench, Conflict, merged, once
from diagrammer.circuit.positions import LiveNet
from diagrammer.circuit.view import Fact, View, node_of
from diagrammer.frozen import frozen

FOLLOWS = ("pv inverter",)


@frozen
class TwoSources(Fact):
    """first and second: the sources that meet; positions: of the multi-way nodes that let them."""

    first: str = ""
    second: str = ""
    positions: tuple[tuple[str, str], ...] = ()


def find(view: View) -> tuple[Fact, ...]:
    """two-ac-sources: the source that meets most others is blamed, on a tie the later in the file."""
    lines, bench = _lines(view), Bench(view)
    meetings = [(live, units) for live in view.live if len(units := _units(view, live, lines)) > 1]
    often = Counter(name for _, units in meetings for name in units)
    met = [conflict for live, units in meetings for conflict in _conflicts(live, units, often)]
    gone: set[str] = set()
    return tuple(once(fact for conflict in merged(met) for fact in _blamed(bench, conflict, gone)))


def _blamed(bench: Bench, conflict: Conflict, gone: set[str]) -> Iterator[TwoSources]:
    cut = bench.cut(conflict, gone)
    for key in cut.keys:
        gone.add(bench.view.edges[key]["value"].circuit)
        first, second, positions = conflict.about
        path = bench.path(cut, key)
        yield TwoSources(
            "two-ac-sources", **bench.where(key), path=path, first=first, second=second, positions=positions)


def _lines(view: View) -> dict[str, tuple[int, tuple[str, ...]]]:
    """{line terminal: (place in file order, positions in which it gives)} of sources of ac."""
    found = {}
    for number, (name, give) in enumerate(view.gives):
        if view.system.nodes[name].kind.name not in FOLLOWS:
            for terminal in view.hot(name, give.port):
                if view.side(terminal).startswith("L"):
                    found[terminal] = (number, give.positions)
    return found


def _units(view: View, live: LiveNet, lines) -> dict[str, tuple[str, ...]]:
    """{what runs as one source: its line terminals on the net}, in file order."""
    giving = sorted((lines[t][0], t) for t in live.terminals if t in lines and _gives(view, live, t, lines[t][1]))
    units: dict[str, tuple[str, ...]] = {}
    for _, terminal in giving:
        unit = _unit(view, terminal)
        units[unit] = (*units.get(unit, ()), terminal)
    return units


def _conflicts(live: LiveNet, units: dict[str, tuple[str, ...]], often: Mapping[str, int]) -> Iterator[Conflict]:
    """Each source against those before it, the one that meets most others last."""
    order = sorted(units, key=lambda name: often[name])
    positions = tuple(live.combination.positions.items())
    for number in range(1, len(order)):
        before = tuple(terminal for name in order[:number] for terminal in units[name])
        wrong = units[order[number]]
        about = (node_of(before[0]), node_of(wrong[0]), positions)
        yield Conflict(live.terminals, wrong, before, live.combination.open, about=about)


def _gives(view: View, live: LiveNet, terminal: str, positions: tuple[str, ...]) -> bool:
    """Whether a source makes the voltage here, rather than passing or following another's."""
    if positions and live.combination.positions[node_of(terminal)] not in positions:
        return False
    return not any(
        data["form"] == "contact" and key not in live.combination.open
        for edges in view.graph.adj[terminal].values() for key, data in edges.items()
    )


def _unit(view: View, terminal: str) -> str:
    """What runs as one source: the `set` of a node, or the node itself."""
    name = node_of(terminal)
    return f"set {view.system.nodes[name].get('set')}" if view.system.nodes[name].get("set") else name
