"""Returns that are thinner than their feed, so that what protects the feed does not protect them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from diagrammer.circuit.carrying import Carrying, Limit
from diagrammer.circuit.protection_flow import Flow
from diagrammer.circuit.protection_solve import Solved
from diagrammer.circuit.protection_web import Web
from diagrammer.circuit.view import Fact, View


@dataclass(frozen=True)
class Through:
    """What can flow into one feed conductor from one end, and what that conductor may carry."""

    flow: Flow
    limit: Limit
    volts: float


@dataclass(frozen=True)
class Thin(Fact):
    """back: the limit of the return; through: what can flow into the feed, and the feed's limit."""

    back: Limit | None = None
    through: Through | None = None


def collect(found: dict[str, list[Through]], web: Web, carrying: Carrying, solved: Solved) -> None:
    """Add the dc feeds of one web, by circuit. Without limit is another finding's, or exempt."""
    for piece in web.pieces:
        if piece.wire is None or piece.wire.core or (limit := carrying.limit(piece.wire, web.volts)) is None:
            continue
        for point in dict.fromkeys((piece.a, piece.b)):
            flow = solved.flows.get((piece.key, point))
            if flow is not None and not flow.bare and not flow.held:
                found.setdefault(piece.wire.circuit, []).append(Through(flow, limit, web.volts))


def find(view: View, lines: Collection[str], through: Mapping[str, list[Through]]) -> Iterator[Thin]:
    """The first return of each circuit that is thinner than every feed of it and must carry more
    than it may. Circuits of `lines`, which are reported already, are left out."""
    carrying, seen = Carrying(view), set(lines) | set(view.out)
    for wire in view.system.conductors:
        if wire.side != "return" or wire.core or wire.circuit in seen or wire.circuit not in through:
            continue
        feeds = through[wire.circuit]
        limit = carrying.limit(wire, feeds[0].volts)
        thinnest = min(feed.limit.ampacity.amps for feed in feeds)
        if limit is None or limit.ampacity.amps >= thinnest:
            continue
        worst = max((feed for feed in feeds if feed.flow.excess(limit) in ("rating", "sum", "limited")),
                    key=lambda feed: feed.flow.total, default=None)
        if worst is not None:
            seen.add(wire.circuit)
            yield Thin("thin-return", (wire.cable,), _nodes(view, wire), back=limit, through=worst)


def _nodes(view: View, wire) -> tuple[str, ...]:
    return tuple(dict.fromkeys(view.system.terminals[end].node for end in (wire.a, wire.b)))
