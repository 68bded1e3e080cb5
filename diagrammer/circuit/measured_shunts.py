"""The shunts of a system, sorted: in the feed, of a branch, of a bank; and which end faces the bank."""

from __future__ import annotations

from collections.abc import Iterable

from diagrammer.circuit import cuts
from diagrammer.circuit.measured_side import Side
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node


@frozen
class Shunt:
    """A bank's shunt in the return: its edge, the end that faces the bank and the other one."""

    name: str
    edge: str
    bank: str
    system: str
    backwards: bool


@frozen
class Sorted:
    """wrong: shunts in the feed that are made for the return. feed: those that measure a bank from its feed.
    bank: those that measure one from its return."""

    wrong: tuple[str, ...]
    feed: tuple[str, ...]
    bank: tuple[Shunt, ...]


def sort(view: View, side: Side) -> Sorted:
    """Every shunt."""
    wrong, feed, back = [], [], []
    for key, edge in view.edges.items():
        if edge["form"] != "shunt":
            continue
        node = view.system.nodes[edge["value"].node]
        if edge["side"] == "feed":
            if node.get("side") != "feed":
                wrong.append(node.name)
            if not of_branch(view, node):
                feed.append(node.name)
        elif not of_branch(view, node):
            back.append((node.name, key, edge["value"].a, edge["value"].b))
    edges = tuple(key for _, key, _, _ in back)
    return Sorted(tuple(wrong), tuple(feed), tuple(_turned(side, edges, *one) for one in back))


def of_branch(view: View, node: Node) -> bool:
    """It measures one named thing, which is no store of energy."""
    named = node.get("measures")
    return bool(named) and not any(
        give.role == "storage" for give in view.system.nodes[named].kind.gives(view.system.nodes[named].values))


def _turned(side: Side, edges: Iterable[str], name: str, key: str, battery: str, system: str) -> Shunt:
    """`battery` and `system` are the ends as they are marked."""
    if _faces(side, edges, key, system, battery):
        return Shunt(name, key, system, battery, True)
    return Shunt(name, key, battery, system, False)


def _faces(side: Side, edges: Iterable[str], key: str, end: str, other: str) -> bool:
    """Whether the bank stands at `end` rather than at `other`. The end where the battery of an engine stands alone,
    or from which alone a bank is reached, or where the engine's stands with little else, first with every shunt taken
    out, then with this one; else the end with fewer things on it."""
    for gone in (edges, (key,)):
        web = side.without(gone)
        here, there = (cuts.reach(web, (t,)) for t in (end, other))
        fewer = _things(side, here) < _things(side, there)
        least = here if fewer else there
        starts = any(starter in least for starter in side.starters)
        if starts and _things(side, least) == 1:
            return fewer
        banked, beyond = (any(bank in reached for bank in side.houses) for reached in (here, there))
        if banked != beyond:
            return banked
        if other not in here and (banked or starts):
            return fewer
    return _lead(side, here) < _lead(side, there) if other in here else fewer


def _things(side: Side, reached) -> int:
    return sum(not side.passes(terminal) for terminal in reached)


def _lead(side: Side, hops) -> int:
    """How much nearer the bank is than anything else, where a way past the shunt joins both ends."""
    things = (far for terminal, far in hops.items() if terminal not in side.houses and not side.passes(terminal))
    banks = (hops[bank] for bank in side.houses if bank in hops)
    return min(banks, default=len(hops)) - min(things, default=len(hops))
