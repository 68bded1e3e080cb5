"""Protection zones: what is left of the feed side, and of the lines of ac, when every overcurrent device is taken
out. A zone is fed through the devices on its edge and by the sources inside it. Every position counts as closed.
"""

from __future__ import annotations

from functools import cached_property

from diagrammer.circuit.protection_web import feeds
from diagrammer.circuit.sides import Side, Sides
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Inside, Node

DEVICE = "overcurrent"


@frozen(eq=False)
class Way:
    """One pole of an overcurrent device: the edge's key, the device, and its terminals."""

    key: str
    node: Node
    inside: Inside

    @property
    def rating(self) -> float | None:
        return self.node.get("rating")

    @property
    def a(self) -> str:
        return self.inside.a

    @property
    def b(self) -> str:
        return self.inside.b

    @property
    def ac(self) -> bool:
        return bool(self.inside.core)


class Zones:
    """The zones of one view, and the devices between them."""

    def __init__(self, view: View, sides: Sides):
        self.view, self.sides = view, sides
        self._joins = feeds(view)

    def zone(self, terminal: str) -> int:
        return self._zones[0][terminal]

    def members(self, zone: int) -> list[str]:
        return self._zones[1][zone]

    @cached_property
    def _zones(self) -> tuple[dict[str, int], dict[int, list[str]]]:
        """The zone of each terminal, and the terminals of each zone, which is numbered by its first one."""
        near: dict[str, list[str]] = {terminal: [] for terminal in self.view.system.terminals}
        for data in self.view.edges.values():
            if data["form"] != DEVICE and self._joins(data):
                a, b = data["value"].a, data["value"].b
                near[a].append(b)
                near[b].append(a)
        zone: dict[str, int] = {}
        members: dict[int, list[str]] = {}
        for number, start in enumerate(near):
            if start not in zone:
                zone[start], members[number] = number, [start]
                for here in members[number]:
                    for other in near[here]:
                        if other not in zone:
                            zone[other] = number
                            members[number].append(other)
        return zone, members

    @cached_property
    def ways(self) -> tuple[Way, ...]:
        """The poles of devices in the feed or a line, in file order."""
        return tuple(Way(key, self.view.system.nodes[data["value"].node], data["value"])
                     for key, data in self.view.edges.items() if data["form"] == DEVICE and self._joins(data))

    @cached_property
    def edges(self) -> dict[int, list[Way]]:
        """The devices on the edge of each zone."""
        found: dict[int, list[Way]] = {}
        for way in self.ways:
            for zone in dict.fromkeys((self.zone(way.a), self.zone(way.b))):
                found.setdefault(zone, []).append(way)
        return found

    @cached_property
    def wires(self) -> dict[int, list[Conductor]]:
        """The conductors of each zone."""
        found: dict[int, list[Conductor]] = {}
        for wire in self.view.system.conductors:
            if self._joins({"form": "conductor", "side": wire.side, "core": wire.core}):
                found.setdefault(self.zone(wire.a), []).append(wire)
        return found

    def beyond(self, way: Way, zone: int) -> Side:
        """What stands on the far side of a device, seen from a zone on its edge."""
        a, b = self.sides.of(way.key)
        return b if self.zone(way.a) == zone else a

    def feeding(self, zone: int) -> tuple[Way, ...]:
        """The devices through which sources without limit feed a zone, the zone's own apart."""
        return tuple(way for way in self.edges.get(zone, ()) if self.beyond(way, zone).unlimited)

    @cached_property
    def _inner(self) -> set[int]:
        return {self.zone(terminal) for name, give in self.view.gives if give.role in ("storage", "source")
                for terminal in self.view.hot(name, give.port)}

    def has_source(self, zone: int) -> bool:
        """Whether a battery, or ac source, stands in the zone itself."""
        return zone in self._inner

    def source_side(self, way: Way) -> tuple[int, int] | None:
        """(zone on the sources' side, zone behind) of a device; None where sources without limit stand on both
        sides or on neither."""
        a, b = self.sides.of(way.key)
        if bool(a.unlimited) == bool(b.unlimited):
            return None
        return (self.zone(way.a), self.zone(way.b)) if a.unlimited else (self.zone(way.b), self.zone(way.a))
