"""What draws power in an operating state, as loads of the network."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from diagrammer.circuit.converters import EFFICIENCY
from diagrammer.circuit.windings import windings
from diagrammer.electrics.network import Load
from diagrammer.netlist.model import Node

if TYPE_CHECKING:
    from diagrammer.circuit.flow import Operation


def _dc_load(operation: Operation, node: Node) -> Iterator[Load]:
    count, window = node["count"], node["voltage"]
    least = window[0] if isinstance(window, tuple) else 0.0
    sort, value = ("power", node["power"]) if node.get("power") else ("current", node["current"])
    if sort == "power" and node.get("duty") == "heat" and not isinstance(window, tuple):
        sort, value = "resistance", window**2 / value / count / count  # a heater is a resistor
    yield Load(node.name, node.terminal("+"), node.terminal("-"), sort, value * count, least)


def _ac_load(operation: Operation, node: Node) -> Iterator[Load]:
    between = windings(node, node.ports[0])
    watts = node["power"] * node["count"] / len(between)
    for name, plus, minus, _ in between:
        yield Load(f"{node.name} {name}", plus, minus, "power", watts)


def _drive(operation: Operation, node: Node) -> Iterator[Load]:
    yield Load(node.name, node.terminal("+"), node.terminal("-"), "power", node["power"] / EFFICIENCY)


def _outlets(operation: Operation, node: Node) -> Iterator[Load]:
    """What outlets behind an inverter may take of its power beside the loads there, as seen on its dc side. Counted
    with the banks low only: the worst case, not the usual one."""
    state, system = operation.state, operation.system
    if operation.charge != "low" or state.positions.get(node.name, "inverting") != "inverting":
        return
    reach = operation.reach(f"{node.name}.out.L{number}" for number in ("", 1, 2, 3))
    names = dict.fromkeys(system.terminals[terminal].node for terminal in system.terminals if terminal in reach)
    behind = [system.nodes[name] for name in names if name not in state.off]
    loads = sum(one["power"] * one["count"] for one in behind if one.kind.name == "ac load")
    if any(one.kind.name == "outlet" for one in behind) and node["power"] > loads:
        share = (node.get("efficiency") or 100 * EFFICIENCY) / 100
        watts = (node["power"] - loads) / share
        yield Load(f"{node.name} outlets", node.terminal("+"), node.terminal("-"), "power", watts)


LOADS: dict[str, Callable[[Operation, Node], Iterator[Load]]] = {
    "load": _dc_load, "ac load": _ac_load, "inverter": _outlets, "inverter charger": _outlets, "drive": _drive,
}
