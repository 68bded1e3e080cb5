"""Banks that no shunt faces: those that stand parallel to one that is measured, and the others."""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit import cuts
from diagrammer.circuit.measured_fact import Unmeasured, unmeasured
from diagrammer.circuit.measured_shunts import Shunt, of_branch
from diagrammer.circuit.measured_side import Side
from diagrammer.circuit.mincut import minimum_cut
from diagrammer.circuit.nets import Nets
from diagrammer.circuit.view import Fact, View, node_of

APART = ("relay", "contactor", "isolator")  # banks on either side of these are not in parallel


def beside(view: View, side: Side, web, done: set[str], measured: list[str], by_feed: set[str],
           shunts: tuple[Shunt, ...]) -> Iterator[Fact]:
    """Banks that no shunt faces: parallel to one that is measured, or not measured at all."""
    nets = Nets(view.graph, lambda data: _parallels(view, data)) if measured else None
    for bank in side.houses:
        if bank in done:
            continue
        part = cuts.reach(web, (bank,))
        done.update(part)
        others = [t for t in part if t in side.houses and side.houses[t] not in by_feed]
        twins = [t for t in others if _twin(view, side, nets, t, measured)]
        for t in twins:
            yield from _bypassing(view, side, {x: web[x] for x in part}, t, measured, nets, shunts)
        alone = [t for t in others if t not in twins and side.houses[t] not in view.excused]
        if alone and not _out(view):
            yield Fact("no-shunt", nodes=tuple(side.houses[t] for t in alone))


def _out(view: View) -> bool:
    """Whether a shunt of a bank stands on a line that an earlier fault took out."""
    return any(node.kind.name == "shunt" and not of_branch(view, node) and name in view.excused
               for name, node in view.system.nodes.items())


def _bypassing(view: View, side: Side, web, bank: str, measured: list[str], nets, shunts) -> Iterator[Unmeasured]:
    """The lead of a parallel bank that lands beyond the shunt."""
    met = [shunt for shunt in shunts if shunt.system in web]
    _, keys = minimum_cut(web, (bank,), [shunt.system for shunt in met], side.weight)
    if keys:
        near, twin = cuts.reach(web, (bank,), keys), _twin(view, side, nets, bank, measured)
        yield unmeasured(view, keys[:1], near, (side.houses[bank],), met[0].name, node_of(twin), True)


def _twin(view: View, side: Side, nets: Nets | None, bank: str, measured: list[str]) -> str:
    """The measured bank that this one stands parallel to, "" where there is none."""
    if nets is None:
        return ""
    tops = {top: minus for minus in reversed(measured) if minus in side.houses
            for top in _tops(view, nets, side.houses[minus])}
    return next((tops[top] for top in _tops(view, nets, side.houses[bank]) if top in tops), "")


def _tops(view: View, nets: Nets, name: str) -> list[int]:
    """The nets at the top of the stacks that stand on a battery: its own +, where nothing stands on it."""
    above: dict[int, list[tuple[int, str]]] = {}
    for one, give in view.gives:
        if give.role == "storage":
            foot, head = (nets[view.pole(one, give.port, pole)] for pole in "-+")
            above.setdefault(foot, []).append((head, one))
            above.setdefault(head, [])
    return [net for net in cuts.reach(above, (nets[view.pole(name, "main", "+")],)) if not above[net]]


def _parallels(view: View, data) -> bool:
    form = data["form"]
    if form in ("conductor", "joint", "overcurrent"):
        return data["side"] == "feed"
    return form == "contact" and view.system.nodes[data["value"].node].kind.name not in APART


def measured_in_feed(view: View, side: Side, shunts: tuple[str, ...]) -> set[str]:
    """The banks on a feed net in which a shunt stands."""
    nets = {view.nets[t.id] for t in view.system.terminals.values() if t.node in shunts and t.port == "battery"}
    return {name for name in side.houses.values() if not nets.isdisjoint(_tops(view, view.nets, name))}
