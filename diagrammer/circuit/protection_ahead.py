"""Whether the device of a conductor stands in time: along the run, from where the excess begins."""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterator
from itertools import count

from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.protection_away import NEVER, Away, Reach
from diagrammer.circuit.protection_web import Piece, Web
from diagrammer.electrics.rounding import above
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Run, System


@frozen
class Lengths:
    """The lengths of a system's conductors, at worst where a run's division is not known."""

    system: System

    def of(self, wire: Conductor) -> tuple[float, str]:
        """The length [m] and, where only a whole run's is known, the run. A length that is not said
        at all counts as 0."""
        if wire.length is not None:
            return wire.length, ""
        return (self.system.runs[wire.run].length, wire.run) if wire.run else (0.0, "")

    @staticmethod
    def known(wire: Conductor) -> bool:
        return wire.length is not None or bool(wire.run)

    def undecided(self, wires: tuple[Conductor, ...]) -> tuple[Run, ...]:
        """The runs of which these conductors are a part that may be anything from 0 to the whole."""
        ids = {wire.id for wire in wires}
        runs = map(self.system.runs.get, dict.fromkeys(wire.run for wire in wires if wire.run))
        return tuple(run for run in runs if not ids.issuperset(run.members))

    @staticmethod
    def sheathed(wire: Conductor) -> bool:
        """An ac conductor is a core of a cable, which is sheathed."""
        return bool(wire.core) or wire.wire.sheathed


@frozen
class Met:
    """A device found ahead: the node, how far away it stands, whether it is small enough, and the
    conductors on the way."""

    node: str
    rating: float | None
    away: Away
    small: bool
    wires: tuple[Conductor, ...]


class Ahead:
    """Looks along the run of a conductor. The web is that of every position at once: a device stands
    where it stands, also while a selector ahead of it is turned away."""

    def __init__(self, web: Web, carrying: Carrying, lengths: Lengths, limits: Reach):
        self.web, self.carrying, self.lengths, self.limits = web, carrying, lengths, limits
        self._pieces = {piece.key: piece for piece in web.pieces}

    def in_time(self, wire: Conductor, entry: str, away: Away) -> bool:
        """Whether a device that is small enough for every conductor to it stands within the distance,
        going into the conductor at the terminal `entry`."""
        return any(met.small for met in self._walk(wire, entry, away, bounded=True))

    def on_line(self, wire: Conductor, entry: str, away: Away) -> Met | None:
        """The first device ahead on the conductor's own line, however far."""
        return next(self._walk(wire, entry, away, bounded=False), None)

    def _walk(self, wire: Conductor, entry: str, away: Away, bounded: bool) -> Iterator[Met]:
        """Nearest first; `bounded` stops at the distance, else the walk keeps to the line. Over a
        length that is not said nothing counts but what stands on the line itself."""
        first, start = self._pieces[wire.id], self.web.points[entry]
        number, seen = count(), set()
        heap = [(0.0, next(number), first, start, away, math.inf, ())]
        while heap:
            gone, _, piece, near, away, most, wires = heapq.heappop(heap)
            state = piece.key, near, away.bare.length > NEVER
            if state in seen:
                continue
            seen.add(state)
            if piece.form == "overcurrent":
                small = piece.rating is None or not above(piece.rating, most)
                told = self._same(first, piece) or all(self.lengths.known(wire) for wire in wires)
                if told and piece.other(near) != start:  # one that leads back to where it began is none
                    yield Met(piece.node, piece.rating, away, small, wires)
                continue
            if piece.wire is not None:
                length, run = self.lengths.of(piece.wire)
                away = away.onward(length, run, self.lengths.sheathed(piece.wire))
                gone, most, wires = gone + length, self._most(piece, most), (*wires, piece.wire)
                if bounded and not away.within(self.limits):
                    continue
            far = piece.other(near)
            for other in self.web.at[far]:
                if other is not piece and (bounded or self._same(first, other)):
                    heapq.heappush(heap, (gone, next(number), other, far, away, most, wires))

    def _most(self, piece: Piece, most: float) -> float:
        limit = self.carrying.limit(piece.wire, self.web.volts)
        return most if limit is None else min(most, limit.one)

    def _same(self, first: Piece, other: Piece) -> bool:
        """Of the same line of the netlist: its conductors, and the devices written in its path."""
        if other.wire is not None:
            return other.wire.circuit == first.wire.circuit
        return (first.wire.circuit, other.node) in self.web.lines
