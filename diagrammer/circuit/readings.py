"""What meters would read in an operating state: the current in each cable, the voltage where each path ends."""

from __future__ import annotations

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.givers import arrays_of, pv_array
from diagrammer.circuit.states import SKY
from diagrammer.electrics import solar
from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Charger, Flow, Load, Network
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Leg, Node
from diagrammer.quantity import show

MEASURED = ("feed", "ac", "series")  # legs at whose end a voltage is of interest


@frozen
class Reading:
    """What flows in a cable: `amps` [A] of each of its lines, a to b above zero; `volts` [V] at its b, over its way
    back. () and None where that is known from the cable before, or not at all."""

    amps: tuple[float, ...] = ()
    volts: float | None = None


def readings(operation: Operation) -> dict[str, Reading]:
    """Readings by cable id, in file order; the current once for as long as it stays the same along a leg.

    Nothing is said of what lies between a turbine and its charger: no model of that is here. Arrays give what their
    charger takes, at their maximum-power voltage (a switching charger's: near its battery's). Needs a Flow.
    """
    return _Meter(operation).every()


class _Meter:
    def __init__(self, operation: Operation):
        self.operation, self.system = operation, operation.system
        self.cables: dict[str, list[Conductor]] = {}
        for one in self.system.conductors:
            if one.side != "earth":
                self.cables.setdefault(one.cable, []).append(one)
        sunny, self.sun = _sun(operation)
        self.arrays = {one.circuit for one in self.system.conductors if one.a in sunny}
        unknown = _unknown(operation) - sunny
        self.unknown = {one.circuit for one in self.system.conductors if one.a in unknown}

    def every(self) -> dict[str, Reading]:
        made: dict[str, Reading] = {}
        for circuit in self.system.circuits:
            for leg in circuit.legs:
                made |= self._leg(leg)
        return made

    def _leg(self, leg: Leg) -> dict[str, Reading]:
        made, before = {}, None
        cables = [cable for cable in leg.links if cable in self.cables]
        for cable in cables:
            lines = [one for one in self.cables[cable] if one.core != "N"]
            if not lines or lines[0].circuit in self.unknown:
                continue
            amps = tuple(self._flow(one).amps[one.id] for one in lines)
            shown = tuple(show(one, "A") for one in amps)
            volts = self._volts(lines) if cable == cables[-1] and leg.role in MEASURED else None
            made[cable] = Reading(amps if shown != before else (), volts)
            before = shown
        return {cable: read for cable, read in made.items() if read.amps or read.volts is not None}

    def _flow(self, one: Conductor) -> Flow:
        return self.sun if one.circuit in self.arrays else self.operation.flow

    def _volts(self, lines: list[Conductor]) -> float | None:
        """Voltage [V] at the far end: line to neutral, else line to line; + to - of one port, else over the
        reference of the island. None where nobody knows."""
        one, values, back = lines[0], self._flow(lines[0]).volts, self._back(lines)
        if back and back not in values:
            return None
        return abs(values[one.b] - (values[back] if back else 0.0))

    def _back(self, lines: list[Conductor]) -> str:
        """The terminal over which the far end's voltage is read; "" for the reference of the island."""
        one = lines[0]
        if one.side != "ac":
            return f"{one.b[:-1]}-" if one.b.endswith(".+") else ""
        neutral = f"{one.b.rpartition('.')[0]}.N"
        if neutral in self.system.terminals:
            return neutral
        return lines[1].b if len(lines) > 1 else ""


def _unknown(operation: Operation) -> set[str]:
    """Terminals between a running source of sun, wind or water and its charger."""
    nodes, terminals = operation.system.nodes, operation.system.terminals.values()
    running = {name for name in operation.state.running if nodes[name].kind.name in SKY}
    return operation.reach({one.id for one in terminals if one.node in running and one.pole != "-"})


def _sun(operation: Operation) -> tuple[set[str], Flow]:
    """Terminals between arrays and their chargers, and what flows there."""
    loads, given = [], []
    for node in operation.system.nodes.values():
        found = arrays_of(operation, node, "pv") if node.kind.name == "solar charger" else ()
        across = operation.volts(f"{node.name}.+", f"{node.name}.-") if found else None
        if across and all(one.kind.name == "pv" for one in found):
            load, gives = _side(operation, node, found, across)
            loads.append(load)
            given += gives
    made = solve(Network(operation.network.branches, loads=tuple(loads), chargers=tuple(given))) if loads else None
    return (operation.reach({one.plus for one in given}), made) if isinstance(made, Flow) else (set(), Flow())


def _side(operation: Operation, charger: Node, arrays: tuple[Node, ...], across: float) -> tuple[Load, list[Charger]]:
    """A charger as the resistance that its arrays see, and their currents in proportion."""
    given = operation.flow.amps.get(charger.name, 0.0)
    whole = [pv_array(one) for one in arrays]
    volts, amps = across, given
    if charger.get("type") != "pwm":
        volts = max(one.vmp for one in whole)
        amps = given * across / solar.EFFICIENCY / volts
    idle, most = amps < 1e-6, sum(one.imp for one in whole)
    gives = [
        Charger(node.name, f"{node.name}.+", f"{node.name}.-", one.voc, one.imp * (1.0 if idle else amps / most))
        for node, one in zip(arrays, whole)
    ]
    ends = f"{charger.name}.pv.+", f"{charger.name}.pv.-"
    return Load(charger.name, *ends, "resistance", 1e6 if idle else volts / amps), gives
