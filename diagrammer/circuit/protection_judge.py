"""One conductor, one end, what flows in there: may it, and what does the conductor pass on?"""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.circuit.carrying import Carrying, Limit
from diagrammer.circuit.protection_ahead import Ahead
from diagrammer.circuit.protection_exempt import CRANKING
from diagrammer.circuit.protection_away import FROM_HERE, NOWHERE, Away
from diagrammer.circuit.protection_flow import NOTHING, Flow
from diagrammer.circuit.protection_web import Piece, Web
from diagrammer.frozen import frozen


@frozen(eq=False)
class Report:
    """A conductor into whose end at `start` too much can flow, and why (see Flow.excess)."""

    piece: Piece
    start: str
    flow: Flow
    why: str
    limit: Limit | None
    away: Away
    entry: str  # the terminal there


@frozen(eq=False)
class Judge:
    """The verdicts in one web. exempt: why each exempt conductor is so, by edge key."""

    web: Web
    carrying: Carrying
    ahead: Ahead
    exempt: Mapping[str, str]

    def report(self, piece: Piece, start: str, flow: Flow) -> Report | None:
        """The report if the conductor must not stand this, None if it may."""
        if piece.wire is None or piece.key in self.exempt:
            return None
        limit = self.carrying.limit(piece.wire, self.web.volts)
        why = flow.excess(limit)
        away = flow.away if flow.away.begun else FROM_HERE
        entry = piece.wire.a if start == self.web.points[piece.wire.a] else piece.wire.b
        if not why or self.ahead.in_time(piece.wire, entry, away):
            return None
        return Report(piece, start, flow, why, limit, away, entry)

    def onward(self, piece: Piece, start: str, flow: Flow, report: Report | None, asked: float = 0.0) -> Flow:
        """What comes out at the far end. asked [A]: what the loads behind take."""
        if piece.blocks(start):
            return NOTHING
        if piece.form == "overcurrent":
            return flow.through(piece.rating)
        if report is not None:
            return flow.hold(asked)
        return flow.at(self._away(piece, flow))

    def _away(self, piece: Piece, flow: Flow) -> Away:
        if piece.wire is None:
            return flow.away
        if self.exempt.get(piece.key) == CRANKING:
            return FROM_HERE if flow.bare else NOWHERE
        if not flow.excess(self.carrying.limit(piece.wire, self.web.volts)):
            return NOWHERE
        length, run = self.ahead.lengths.of(piece.wire)
        away = flow.away if flow.away.begun else FROM_HERE
        return away.onward(length, run, self.ahead.lengths.sheathed(piece.wire))
