"""The feed side, or the lines of ac, as fault current sees them in one combination of positions.

Joints and closed contacts are contracted: what is left are points, and pieces between them, each a
conductor, an overcurrent device or a diode.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping

from diagrammer.circuit.positions import Cluster, Combination
from diagrammer.circuit.protection_asks import asks
from diagrammer.circuit.protection_away import FROM_HERE, FROM_INLET, FROM_POST
from diagrammer.circuit.protection_flow import Flow
from diagrammer.circuit.view import View
from diagrammer.circuit.voltages import Voltages
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import UNLIMITED, Gives
from diagrammer.netlist.model import Conductor

BACK = ("-", "N", "earth")
CONTRACTED = ("joint", "contact", "common", "shunt", "resistor")


def feeds(view: View) -> Callable[[Mapping], bool]:
    """Which edges belong to the feed side or to a line: the `joins` of the clusters looked at."""
    poles = {terminal.id: terminal.pole for terminal in view.system.terminals.values()}

    def joins(data: Mapping) -> bool:
        form, side, core = data["form"], data["side"], data["core"]
        if side in ("return", "earth") or core and not core.startswith("L"):
            return False
        if form in ("conductor", "joint"):
            return True
        value = data["value"]
        return form in (*CONTRACTED, "overcurrent", "diode") and not (
            poles[value.a] in BACK or poles[value.b] in BACK)

    return joins


@frozen(eq=False, slots=True)
class Piece:
    """What joins two points: a conductor, an overcurrent device of a node, or a diode (a to b)."""

    key: str
    form: str  # conductor, overcurrent, diode
    a: str
    b: str
    wire: Conductor | None = None
    node: str = ""
    rating: float | None = None  # [A] of a device

    def other(self, point: str) -> str:
        return self.b if point == self.a else self.a

    def blocks(self, start: str) -> bool:
        return self.form == "diode" and start != self.a


@frozen(eq=False)
class Web:
    """points: of each terminal. pieces: in file order; at: those that end at a point; own: what the
    sources at a point give; givers: which nodes those are; asks [A]: what the loads there take."""

    volts: float
    combination: Combination
    points: Mapping[str, str]
    pieces: tuple[Piece, ...]
    at: Mapping[str, tuple[Piece, ...]]
    own: Mapping[str, Flow]
    givers: Mapping[str, tuple[str, ...]]
    asks: Mapping[str, float]
    lines: frozenset[tuple[str, str]]  # circuit, node that its path meets


class Loom:
    """Makes the webs of one view. `dark`: nodes whose sources do not count."""

    def __init__(self, view: View, dark: Iterable[str] = ()):
        self.view, self.joins = view, feeds(view)
        self._lines = frozenset((line.name, stop.node) for line in view.system.circuits for leg in line.legs
                                for stop in leg.stops)
        self._voltages = Voltages(view)
        self._gives: dict[str, list[tuple[str, Gives]]] = {}
        for name, give in view.gives:
            if name not in dark and give.amps:
                for terminal in view.hot(name, give.port):
                    self._gives.setdefault(terminal, []).append((name, give))

    def clusters(self) -> Iterator[Cluster]:
        """Everything on the feed side or a line that some positions join, if a conductor is in it."""
        return (c for c in self.view.positions.clusters(self.joins) if len(c.terminals) > 1)

    def whole(self, cluster: Cluster) -> Web:
        """With every position at once."""
        return self.web(cluster, Combination({}, frozenset()))

    def web(self, cluster: Cluster, combination: Combination) -> Web:
        """The web of one cluster in one combination."""
        edges = self._edges(cluster, combination)
        root = _contract(cluster.terminals, edges)
        points = {terminal: root(terminal) for terminal in cluster.terminals}
        pieces = tuple(self._piece(key, data, points) for key, data in edges if data["form"] not in CONTRACTED)
        at: dict[str, list[Piece]] = {point: [] for point in points.values()}
        for piece in pieces:
            for point in dict.fromkeys((piece.a, piece.b)):
                at[point].append(piece)
        own, givers = self._sources(points, combination)
        volts = max(map(self._voltages.nominal, points))
        return Web(volts, combination, points, pieces, {p: tuple(q) for p, q in at.items()}, own, givers,
                   self._asks(points, volts), self._lines)

    def _edges(self, cluster: Cluster, combination: Combination) -> list[tuple[str, Mapping]]:
        return [(key, data) for a in cluster.terminals for found in self.view.graph.adj[a].values()
                for key, data in found.items()
                if a == data["value"].a and key not in combination.open and self.joins(data)]

    def _piece(self, key: str, data: Mapping, points: Mapping[str, str]) -> Piece:
        value, form = data["value"], data["form"]
        a, b = points[value.a], points[value.b]
        if form == "conductor":
            return Piece(key, form, a, b, wire=value)
        rating = self.view.system.nodes[value.node].get("rating") if form == "overcurrent" else None
        return Piece(key, form, a, b, node=value.node, rating=rating)

    def _sources(self, points: Mapping[str, str], combination: Combination):
        own: dict[str, Flow] = {}
        givers: dict[str, tuple[str, ...]] = {}
        for terminal, point in points.items():
            for name, give in self._gives.get(terminal, ()):
                position = combination.positions.get(name)
                if position is None or not give.positions or position in give.positions:
                    own[point] = own.get(point, Flow()) + self._flow(name, give)
                    givers[point] = (*givers.get(point, ()), name)
        return own, givers

    def _flow(self, name: str, give: Gives) -> Flow:
        if give.amps != UNLIMITED:
            return Flow(limited=give.amps)
        if give.role == "storage":
            return Flow(bare=True, away=FROM_POST)
        shore = self.view.system.nodes[name].kind.name == "shore"
        return Flow(bare=True, away=FROM_INLET if shore else FROM_HERE)

    def _asks(self, points: Mapping[str, str], volts: float) -> dict[str, float]:
        found: dict[str, float] = defaultdict(float)
        for terminal, point in points.items():
            at = self.view.system.terminals[terminal]
            if at.pole not in BACK:
                found[point] += asks(self.view.system.nodes[at.node], at.port, volts)
        return found


def _contract(terminals: Iterable[str], edges) -> Callable[[str], str]:
    """The point of each terminal: union-find with path halving."""
    parent = {terminal: terminal for terminal in terminals}

    def root(item: str) -> str:
        while parent[item] != item:
            parent[item] = parent[parent[item]]
            item = parent[item]
        return item

    for _, data in edges:
        if data["form"] in CONTRACTED:
            a, b = root(data["value"].a), root(data["value"].b)
            if a != b:
                parent[b] = a
    return root
