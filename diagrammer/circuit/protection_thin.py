"""Returns that are thinner than their feed, so that what protects the feed may not protect them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from diagrammer.circuit.carrying import Carrying, Limit
from diagrammer.circuit.protection_flow import Flow
from diagrammer.circuit.protection_solve import Solved
from diagrammer.circuit.protection_web import Web
from diagrammer.circuit.view import Fact, View
from diagrammer.electrics.conductor import area
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor


@frozen
class Through:
    """What can flow into one feed conductor from one end."""

    flow: Flow
    volts: float


@frozen
class Thin(Fact):
    """back: the return; feed: the thinnest conductor of its feed; flow: the most that can flow into
    the feed and is too much for the return, limit: what the return may carry then; None where none is."""

    back: Conductor | None = None
    feed: Conductor | None = None
    limit: Limit | None = None
    flow: Flow | None = None


def collect(found: dict[str, list[Through]], web: Web, solved: Solved) -> None:
    """Add what flows into the conductors of one web, by circuit. What is held is another finding's."""
    for piece in web.pieces:
        for point in dict.fromkeys((piece.a, piece.b)) if piece.wire is not None else ():
            flow = solved.flows[piece.key, point]
            if not flow.held:
                found.setdefault(piece.wire.circuit, []).append(Through(flow, web.volts))


def find(view: View, lines: Collection[str], through: Mapping[str, list[Through]]) -> Iterator[Thin]:
    """The first return of each circuit that is thinner than every feed of it. Circuits of `lines`,
    which are reported already, are left out."""
    feeds = _thinnest(view)
    carrying, seen = Carrying(view), set(lines) | set(view.out)
    for wire in view.system.conductors:
        feed = feeds.get(wire.circuit)
        if wire.circuit in seen or feed is None or wire.wire.size is None:
            continue
        if _section(wire) < _section(feed):
            seen.add(wire.circuit)
            yield _fact(view, carrying, wire, feed, through.get(wire.circuit, []))


def _thinnest(view: View) -> dict[str, Conductor]:
    found: dict[str, Conductor] = {}
    for wire in view.system.conductors:
        if wire.role == "feed" and wire.wire.size is not None:
            least = found.setdefault(wire.circuit, wire)
            if _section(wire) < _section(least):
                found[wire.circuit] = wire
    return found


def _section(wire: Conductor) -> float:
    """[mm²] of all that run in parallel."""
    return wire.wire.parallel * area(wire.wire.size)


def _fact(view: View, carrying: Carrying, wire: Conductor, feed: Conductor, through: list[Through]) -> Thin:
    known = ((one.flow, carrying.limit(wire, one.volts)) for one in through)
    over = [(flow, limit) for flow, limit in known if flow.excess(limit) in ("rating", "sum", "limited")]
    flow, limit = max(over, key=lambda one: one[0].total, default=(None, None))
    nodes = tuple(dict.fromkeys(view.system.terminals[end].node for end in (wire.a, wire.b)))
    return Thin("thin-return", (wire.cable,), nodes, back=wire, feed=feed, limit=limit, flow=flow)
