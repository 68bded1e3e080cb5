"""What stands on the outputs of an inverter in an operating state."""

from __future__ import annotations

from typing import TYPE_CHECKING

from diagrammer.netlist.model import Node

if TYPE_CHECKING:
    from diagrammer.circuit.flow import Operation


def behind(operation: Operation, inverter: Node) -> tuple[Node, ...]:
    """The nodes on its outputs, itself among them, by name, but for what is off."""
    system = operation.system
    reach = operation.reach(f"{inverter.name}.out.L{number}" for number in ("", 1, 2, 3))
    names = {system.terminals[terminal].node for terminal in reach if terminal in system.terminals}
    return tuple(system.nodes[name] for name in sorted(names - operation.state.off))


def asked(nodes: tuple[Node, ...]) -> float:
    """Power [W] of the loads among them."""
    return sum(one["power"] * one["count"] for one in nodes if one.kind.name == "ac load")


def given(nodes: tuple[Node, ...]) -> float:
    """Power [W] that the inverters among them give together."""
    return sum(one["power"] for one in nodes if one.kind.name in ("inverter", "inverter charger"))
