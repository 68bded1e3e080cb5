"""A block that has more than one way round: flows by maximum flow, reports nearest the sources first."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Iterable, Sequence

from diagrammer.circuit.protection_flow import NOTHING, Flow, together
from diagrammer.circuit.protection_judge import Judge, Report
from diagrammer.circuit.protection_web import Piece

Inflows = Sequence[tuple[str, Flow]]
SOURCE, SINK = "\0source", "\0sink"


class Mesh:
    """One block with what flows into its points from outside it."""

    def __init__(self, judge: Judge, points: Iterable[str], inner: Sequence[Piece], inflows: Inflows):
        self.judge, self.inner = judge, inner
        self.inflows = [(point, flow) for point, flow in inflows if not flow.none]
        self.at: dict[str, list[Piece]] = {point: [] for point in points}
        for piece in inner:
            for point in dict.fromkeys((piece.a, piece.b)):
                self.at[point].append(piece)
        self.held: dict[tuple[str, str], Report] = {}
        self.flows: dict[tuple[str, str], Flow] = {}
        self._known: dict[str, Flow] = {}
        self._settle()

    @property
    def reports(self) -> tuple[Report, ...]:
        return tuple(self.held.values())

    def _settle(self) -> None:
        """Report what stands nearest the sources, hold it, and look again until nothing is left."""
        depth = self._depths()
        while found := list(self._overdrawn()):
            least = min(depth[report.start] for report in found)
            self.held.update(((r.piece.key, r.start), r) for r in found if depth[r.start] == least)

    def _overdrawn(self) -> Iterable[Report]:
        for piece in self.inner:
            for start in dict.fromkeys((piece.a, piece.b)) if piece.wire is not None else ():
                if (piece.key, start) not in self.held:
                    self.flows[piece.key, start] = flow = self._flow(start, piece)
                    report = self.judge.report(piece, start, flow)
                    if report is not None:
                        yield report

    def _depths(self) -> dict[str, int]:
        depth = {point: 0 for point, _ in self.inflows}
        queue = deque(depth)
        while queue:
            point = queue.popleft()
            for piece in self.at[point]:
                other = piece.other(point)
                if other not in depth and not piece.blocks(point):
                    depth[other] = depth[point] + 1
                    queue.append(other)
        return depth

    def flow(self, point: str) -> Flow:
        """What a fault at a point of the block can draw."""
        if point not in self._known:
            self._known[point] = self._flow(point, None)
        return self._known[point]

    def _flow(self, point: str, without: Piece | None) -> Flow:
        """The same, one conductor taken out."""
        toward = self._zone(point, without)
        flows = [self._brought(source, flow, toward) for source, flow in self.inflows if source in toward]
        for (key, start), report in self.held.items():
            piece = report.piece
            if piece is not without and piece.other(start) in toward:
                flows.append(report.flow.hold(0.0))
        return together(flows) + self._through_devices(toward, without)

    def _zone(self, point: str, without: Piece | None) -> dict[str, Piece | None]:
        """The points from which current reaches this one through no device, each with the next piece."""
        toward: dict[str, Piece | None] = {point: None}
        queue = deque(toward)
        while queue:
            here = queue.popleft()
            for piece in self.at[here]:
                other = piece.other(here)
                if (piece is not without and piece.form != "overcurrent" and other not in toward
                        and not piece.blocks(other) and (piece.key, other) not in self.held):
                    toward[other] = piece
                    queue.append(other)
        return toward

    def _brought(self, point: str, flow: Flow, toward) -> Flow:
        while (piece := toward[point]) is not None:
            flow, point = self.judge.onward(piece, point, flow, None), piece.other(point)
        return flow

    def _through_devices(self, zone, without: Piece | None) -> Flow:
        """What devices let into a zone: each alone up to its rating, together the maximum flow."""
        doors = [piece for piece in self.inner if piece.rating is not None and (piece.a in zone) != (piece.b in zone)]
        total = self._maximum(zone, without) if doors else 0.0
        return Flow(devices=total, largest=min(total, max(door.rating for door in doors))) if total else NOTHING

    def _maximum(self, zone, without: Piece | None) -> float:
        """[A] by shortest augmenting paths (Edmonds and Karp, J. ACM 19 (1972))."""
        room: dict[str, dict[str, float]] = {SOURCE: {}, SINK: {}}

        def widen(a: str, b: str, amps: float) -> None:
            a, b = (SINK if p in zone else p for p in (a, b))
            if a != b:
                room.setdefault(a, {})[b] = room.get(a, {}).get(b, 0.0) + amps
                room.setdefault(b, {}).setdefault(a, 0.0)

        for point, flow in self.inflows:
            if point not in zone:
                widen(SOURCE, point, flow.total)
        for piece in self.inner:
            amps = (piece.rating or 0.0) if piece.form == "overcurrent" else math.inf
            for start in (piece.a, piece.b):
                end = piece.other(start)
                held = (piece.key, start) in self.held and end in zone  # counted where it comes in
                if not held and piece is not without and not piece.blocks(start):
                    widen(start, end, amps)
        return _augmented(room)


def _augmented(room: dict[str, dict[str, float]]) -> float:
    total = 0.0
    while True:
        came: dict[str, str] = {SOURCE: ""}
        queue = deque(came)
        while queue:
            here = queue.popleft()
            for there, amps in room[here].items():
                if amps > 0 and there not in came:
                    came[there] = here
                    queue.append(there)
        if SINK not in came:
            return total
        path = [SINK]
        while path[-1] != SOURCE:
            path.append(came[path[-1]])
        steps = list(zip(path[1:], path))
        amount = min(room[a][b] for a, b in steps)
        total += amount
        for a, b in steps:
            room[a][b] -= amount
            room[b][a] += amount
