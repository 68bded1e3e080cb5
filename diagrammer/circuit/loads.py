"""What draws power in an operating state, as loads of the network."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from diagrammer.circuit.converters import EFFICIENCY, efficiency
from diagrammer.circuit.outputs import asked, behind
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
    if operation.charge != "low" or operation.state.positions.get(node.name, "inverting") != "inverting":
        return
    met = behind(operation, node)
    left = node["power"] - asked(met)
    if any(one.kind.name == "outlet" for one in met) and left > 0:
        yield Load(f"{node.name} outlets", node.terminal("+"), node.terminal("-"), "power", left / efficiency(node))


LOADS: dict[str, Callable[[Operation, Node], Iterator[Load]]] = {
    "load": _dc_load, "ac load": _ac_load, "inverter": _outlets, "inverter charger": _outlets, "drive": _drive,
}
