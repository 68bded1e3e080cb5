"""What a netlist leaves to be computed, and the system with a choice for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from functools import cached_property

from diagrammer.frozen import changing, frozen
from diagrammer.kinds.kind import Values
from diagrammer.netlist.model import Conductor, Node, System, Wire
from diagrammer.quantity import Size

DEVICES = ("fuse", "breaker", "rcbo")


@frozen
class Unknown:
    """The circuits with conductors of no size, and the overcurrent devices of no rating."""

    system: System

    @cached_property
    def lines(self) -> dict[str, tuple[Conductor, ...]]:
        found: dict[str, list[Conductor]] = {}
        for one in self.system.conductors:
            if one.wire.size is None:
                found.setdefault(one.circuit, []).append(one)
        return {name: tuple(wires) for name, wires in found.items()}

    @cached_property
    def devices(self) -> dict[str, Node]:
        return {node.name: node for node in self.system.nodes.values() if node.kind.name in DEVICES and not node.get("rating")}

    @cached_property
    def line_of(self) -> dict[str, str]:
        """The circuit in whose path each device of no rating stands."""
        return {
            stop.node: circuit.name for circuit in self.system.circuits for leg in circuit.legs for stop in leg.stops
            if stop.node in self.devices
        }

    @property
    def nothing(self) -> bool:
        return not self.lines and not self.devices


@changing
class Choice:
    """A size for every line, a rating [A] for every device, and for each what decided it."""

    sizes: dict[str, Size] = field(default_factory=dict)
    ratings: dict[str, float] = field(default_factory=dict)
    why: dict[str, str] = field(default_factory=dict)

    def applied(self, system: System) -> System:
        """The system with the choice in it."""
        made: dict[Wire, Wire] = {}
        wires = tuple(
            one if one.wire.size or one.circuit not in self.sizes
            else replace(one, wire=made.setdefault(wire := replace(one.wire, size=self.sizes[one.circuit]), wire))
            for one in system.conductors
        )
        return replace(system, conductors=wires, nodes={name: self._rated(node) for name, node in system.nodes.items()})

    def _rated(self, node: Node) -> Node:
        if node.name not in self.ratings or node.get("rating"):
            return node
        given: Mapping[str, object] = {**node.values.given, "rating": self.ratings[node.name]}
        return replace(node, values=Values(given, node.values.practice))
