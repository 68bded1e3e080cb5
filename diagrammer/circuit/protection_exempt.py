"""Conductors that need no overcurrent device of their own.

Cranking conductors; links between the posts of one bank and leads to a bank bar; the lead of a
self-limiting alternator to the cranking circuit. Sources: 33 CFR 183.455(b), 183.460; ABYC E-11
11.10.1.1.1 with its exceptions; links and leads by common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit import cuts
from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.protection_ahead import Lengths
from diagrammer.circuit.protection_away import MICRON, Reach
from diagrammer.circuit.protection_web import Piece, Web
from diagrammer.circuit.view import View, node_of
from diagrammer.electrics.protection import distances
from diagrammer.netlist.model import Node

CRANKING, LINK, LEAD = "cranking", "link", "lead"
BARS = ("bar", "joint", "terminals")
ALTERNATORS = "abyc"  # whose exception for their leads is the only one known


class Exempt:
    """The exempt conductors of one cluster, by edge key; the web is that of every position at once."""

    def __init__(self, view: View, web: Web, carrying: Carrying, lengths: Lengths, limits: Reach):
        self.view, self.web, self.carrying, self.lengths, self.limits = view, web, carrying, lengths, limits
        self.nodes = [view.system.nodes[name] for name in dict.fromkeys(map(node_of, web.points))]
        self.posts = self._posts()
        self.why: dict[str, str] = {}
        cranking = dict.fromkeys(self._cranking())
        self.why.update((key, LINK) for key in self._links())
        self.why.update((key, LEAD) for key in self._alternator_leads(cranking))
        self.why.update((key, CRANKING) for key in cranking)

    def _posts(self) -> dict[str, list[str]]:
        """The batteries of each point at which a post of theirs stands, nothing between."""
        found: dict[str, list[str]] = {}
        for node in self.nodes:
            for give in node.kind.gives(node.values):
                for terminal in self.view.poles(node.name, give.port).values():
                    if give.role == "storage" and terminal in self.web.points:
                        found.setdefault(self.web.points[terminal], []).append(node.name)
        return found

    def _cranking(self) -> Iterator[str]:
        """Every simple path of conductors from the starter battery to the starter motor."""
        motors = [point for _, point in self._plus_of("starter")]
        bare = {point: [(piece.other(point), piece.key) for piece in pieces if piece.form == "conductor"]
                for point, pieces in self.web.at.items()} if motors else {}
        for motor in motors:
            reached = cuts.reach(bare, (motor,))
            for point in self._crank_from(point for point in self.posts if point in reached):
                yield from cuts.between(bare, point, motor)

    def _plus_of(self, kind: str) -> Iterator[tuple[Node, str]]:
        """The nodes of a kind, and the point of the + of each."""
        for node in self.nodes:
            plus = self.view.pole(node.name, "main", "+") if node.kind.name == kind else None
            if plus in self.web.points:
                yield node, self.web.points[plus]

    def _crank_from(self, points: Iterator[str]) -> tuple[str, ...]:
        """Where a starter battery stands; with none, any bank that is wired to the motor."""
        points = tuple(points)
        starters = tuple(point for point in points if any(self._duty(name) == "starter" for name in self.posts[point]))
        return starters or points

    def _duty(self, name: str) -> str:
        return self.view.system.nodes[name]["duty"]

    def _links(self) -> Iterator[str]:
        leads: dict[tuple[str, str], list[tuple[Piece, str]]] = {}  # by bar and duty
        for piece in self.web.pieces:
            if piece.wire is None or self.lengths.of(piece.wire)[0] > self.limits.from_battery + MICRON:
                continue
            if piece.wire.role == "series" or self._one_bank(piece):
                yield piece.key
            elif lead := self._lead(piece):
                post, bar = lead
                leads.setdefault((bar, self._duty(self.posts[post][0])), []).append((piece, post))
        for found in leads.values():
            if len({post for _, post in found}) > 1:
                yield from (piece.key for piece, _ in found)

    def _one_bank(self, piece: Piece) -> bool:
        """Both ends on posts of batteries that serve the same duty."""
        a, b = self.posts.get(piece.a), self.posts.get(piece.b)
        return bool(a and b and {self._duty(name) for name in a} == {self._duty(name) for name in b})

    def _lead(self, piece: Piece) -> tuple[str, str] | None:
        """The post from which a conductor comes straight, and the bar on which it lands."""
        for post, bar, terminal in ((piece.a, piece.b, piece.wire.b), (piece.b, piece.a, piece.wire.a)):
            kind = self.view.system.nodes[node_of(terminal)].kind.name
            if post in self.posts and bar not in self.posts and kind in BARS:
                return post, bar
        return None

    def _alternator_leads(self, cranking) -> Iterator[str]:
        studs = {point for piece in self.web.pieces if piece.key in cranking for point in (piece.a, piece.b)}
        studs -= set(self.posts)
        for node, point in self._plus_of("alternator"):
            (give,) = node.kind.gives(node.values)
            yield from self._lead_to(point, studs, give.amps)

    def _lead_to(self, point: str, studs: set[str], amps: float) -> tuple[str, ...]:
        """The conductors in a row from an alternator to one of the studs, if they may stand there."""
        row: list[Piece] = []
        while point not in studs:
            onward = [piece for piece in self.web.at[point] if not row or piece is not row[-1]]
            if len(onward) != 1 or onward[0].wire is None:
                return ()
            row.append(onward[0])
            point = row[-1].other(point)
        return tuple(piece.key for piece in row) if self._short(row) and self._carries(row, amps) else ()

    def _short(self, row: list[Piece]) -> bool:
        runs = {self.lengths.of(piece.wire)[1] or piece.key: self.lengths.of(piece.wire)[0] for piece in row}
        sheathed = all(self.lengths.sheathed(piece.wire) for piece in row)
        return sheathed and sum(runs.values()) <= distances(ALTERNATORS).sheathed + MICRON

    def _carries(self, row: list[Piece], amps: float) -> bool:
        limits = (self.carrying.limit(piece.wire, self.web.volts) for piece in row)
        return all(limit is not None and limit.ampacity.amps >= amps for limit in limits)
