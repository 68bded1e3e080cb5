"""What takes power on one side and gives it on another in an operating state, as converters of the network."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.givers import MACHINE_OHMS, arrays_of
from diagrammer.circuit.outputs import asked, behind, given
from diagrammer.circuit.windings import windings
from diagrammer.electrics.network import Converter
from diagrammer.netlist.model import Node, Port

if TYPE_CHECKING:
    from diagrammer.circuit.flow import Operation

EFFICIENCY = 0.9  # of a converter or inverter where its data sheet is not given (common practice)
TRANSFORMED = 0.95  # share of the power that an isolating transformer of this size passes on (common practice)


def _converter(operation: Operation, node: Node) -> Iterator[Converter]:
    yield _dc(node, "in", node["voltage"], node["output"])


def _dc_charger(operation: Operation, node: Node) -> Iterator[Converter]:
    volts = charge_voltage(operation.system, f"{node.name}.+")
    running = operation.state.running and not arrays_of(operation, node, "pv") and _input_is_charged(operation, node)
    if volts and running:
        yield _dc(node, "in", volts, node["output"])


def _input_is_charged(operation: Operation, node: Node) -> bool:
    """Whether a running source stands on the net of a dc charger's input, or none is wired to it at all."""
    reach = operation.reach((f"{node.name}.in.+",))
    engines = [one.name for one in operation.ends if one.kind.name == "alternator" and f"{one.name}.+" in reach]
    return not engines or any(name in operation.state.running for name in engines)


def _inverter_charger(operation: Operation, node: Node) -> Iterator[Converter]:
    position = operation.state.positions.get(node.name, "inverting")
    if position == "inverting":
        yield from _inverting(operation, node)
        return
    volts = charge_voltage(operation.system, f"{node.name}.+")
    if volts and node["charge"]:
        yield from _from_ac(node, _port(node, "in2" if position.endswith("2") else "in"), volts, node["charge"])


def _transformer(operation: Operation, node: Node) -> Iterator[Converter]:
    """Winding by winding; both sides have the same."""
    sides = (windings(node, _port(node, name)) for name in ("in", "out"))
    for (name, a, b, _), (_, plus, minus, volts) in zip(*sides):
        yield Converter(f"{node.name} {name}", a, b, plus, minus, volts, efficiency=TRANSFORMED, ohms=MACHINE_OHMS)


def _ac_charger(operation: Operation, node: Node) -> Iterator[Converter]:
    volts = charge_voltage(operation.system, f"{node.name}.+")
    if volts:
        yield from _from_ac(node, _port(node, "in"), volts, node["output"])


def _inverting(operation: Operation, node: Node) -> Iterator[Converter]:
    """Of what is asked above its power, and that of those beside it, its input sees nothing: it limits or opens."""
    met = behind(operation, node)
    share = min(1.0, given(met) / (asked(met) or 1.0))
    window = node.get("input window")
    least = window[0] if isinstance(window, tuple) else 0.0
    for name, plus, minus, volts in windings(node, _port(node, "out")):
        yield Converter(f"{node.name} {name}", f"{node.name}.+", f"{node.name}.-", plus, minus, volts,
                        efficiency=efficiency(node), ohms=MACHINE_OHMS, least=least, share=share)


def _from_ac(node: Node, port: Port, volts: float, amps: float) -> Iterator[Converter]:
    """A charger of several lines takes as much from each."""
    lines = windings(node, port)
    for name, plus, minus, _ in lines:
        said = f"{node.name} charging {name}" if len(lines) > 1 else f"{node.name} charging"
        yield Converter(said, plus, minus, f"{node.name}.+", f"{node.name}.-", volts,
                        efficiency=EFFICIENCY, amps=amps / len(lines), ohms=MACHINE_OHMS)


def _dc(node: Node, port: str, volts: float, amps: float) -> Converter:
    window = node.get("input voltage")
    return Converter(
        node.name, f"{node.name}.{port}.+", f"{node.name}.{port}.-", f"{node.name}.+", f"{node.name}.-", volts,
        efficiency=efficiency(node), amps=amps, ohms=MACHINE_OHMS,
        least=window[0] if isinstance(window, tuple) else 0.0,
    )


def efficiency(node: Node) -> float:
    """Share (0 ... 1) of its input power that a converter or inverter gives."""
    return (node.get("efficiency") or 100 * EFFICIENCY) / 100


def _port(node: Node, name: str) -> Port:
    return next(port for port in node.ports if port.name == name)


CONVERTERS: dict[str, Callable[[Operation, Node], Iterator[Converter]]] = {
    "converter": _converter, "dc charger": _dc_charger, "inverter": _inverting, "inverter charger": _inverter_charger,
    "ac charger": _ac_charger, "transformer": _transformer,
}
