"""What gives power in an operating state: batteries and ac supplies as sources, alternators and what the sky feeds as
chargers of the network."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from diagrammer.circuit.batteries import batteries, charge_voltage
from diagrammer.circuit.states import SKY
from diagrammer.circuit.windings import windings
from diagrammer.electrics import solar
from diagrammer.electrics.network import Charger, Source
from diagrammer.netlist.model import Node

if TYPE_CHECKING:
    from diagrammer.circuit.flow import Operation

GRID_OHMS, MACHINE_OHMS = 0.2, 0.005  # [Ω] of a public supply and of a converter's output (common practice)


def _battery(operation: Operation, node: Node) -> Iterator[Source]:
    volts, ohms = batteries(operation.system)[node.name].at(operation.charge)
    yield Source(node.name, f"{node.name}.+", f"{node.name}.-", volts, ohms)


def _supply(operation: Operation, node: Node) -> Iterator[Source]:
    if node.name in operation.state.running:
        for name, plus, minus, volts in windings(node, node.ports[0]):
            yield Source(f"{node.name} {name}", plus, minus, volts, GRID_OHMS)


def _alternator(operation: Operation, node: Node) -> Iterator[Charger]:
    if node.name not in operation.state.running:
        return
    amps = node.get("continuous") or node["output"]
    volts = node.get("voltage") or charge_voltage(operation.system, f"{node.name}.+")
    if volts:
        yield Charger(node.name, f"{node.name}.+", f"{node.name}.-", volts, amps, MACHINE_OHMS)


def _from_sky(operation: Operation, node: Node) -> Iterator[Charger]:
    port = "in" if node.kind.name == "wind charger" else "pv"
    volts = charge_voltage(operation.system, f"{node.name}.+")
    arrays = arrays_of(operation, node, port) if volts else ()
    amps = sum(array_amps(node, array, volts) for array in arrays)
    if amps > 0:
        yield Charger(node.name, f"{node.name}.+", f"{node.name}.-", volts, min(amps, node["output"]), MACHINE_OHMS)


def arrays_of(operation: Operation, charger: Node, port: str) -> tuple[Node, ...]:
    """The running pv, wind and hydro nodes that reach a charger's port."""
    running = [node for node in operation.ends if node.name in operation.state.running and node.kind.name in SKY]
    if not running:
        return ()
    reach = operation.reach(f"{charger.name}.{port}.{pole}" for pole in ("+", "L", "L1"))
    return tuple(node for node in running if any(f"{node.name}.{pole}" in reach for pole in ("+", "L1", "L")))


def array_amps(charger: Node, array: Node, volts: float) -> float:
    """Current [A] that one array, turbine or wheel gives through a charger at `volts` [V] of the bank."""
    if array.kind.name != "pv":
        return array["power"] / volts
    at = pv_array(array)
    if charger.get("type") == "pwm":
        return solar.pwm(at, volts, charger["output"]).amps
    return solar.mppt(at, volts, charger["output"]).amps


def pv_array(node: Node, cell: float = 25.0) -> solar.Array:
    """A pv node as an array at `cell` [°C] in full sun; what its data sheet leaves out by the usual ratios."""
    voc, isc = node["voc"], node["isc"]
    return solar.array(
        voc, node.get("vmp") or 0.82 * voc, isc, node.get("imp") or 0.94 * isc,
        node["series"], node["parallel"], cell=cell,
        voc_share=node.get("voc drift") or 0.0, vmp_share=node.get("vmp drift") or node.get("voc drift") or 0.0,
    )


SOURCES: dict[str, Callable[[Operation, Node], Iterator[Source]]] = {
    "bank": _battery, "battery": _battery, "shore": _supply, "generator": _supply,
}
CHARGERS: dict[str, Callable[[Operation, Node], Iterator[Charger]]] = {
    "alternator": _alternator, "solar charger": _from_sky, "wind charger": _from_sky, "dc charger": _from_sky,
}
