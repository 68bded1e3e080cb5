"""The batteries of a system as electrical sources, and the voltage at which a net is charged."""

from __future__ import annotations

from functools import lru_cache

from diagrammer.circuit.reach import neighbours, reached
from diagrammer.electrics import battery, fault
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node, System


@frozen
class Battery:
    """One bank or battery: its window of voltages, capacity [Ah], short-circuit current [A]."""

    node: Node
    window: battery.Window
    capacity: float
    short_circuit: float

    def at(self, charge: str) -> tuple[float, float]:
        """Open voltage [V] and internal resistance [Ω] at "low", "nominal" or "full" charge; full, it gives the
        short-circuit current that is stated, for that is measured on a full battery (IEC 60896-21, from memory)."""
        volts = {"low": self.window.cutoff, "nominal": self.window.nominal, "full": self.window.absorption}[charge]
        return volts, max(volts, self.window.nominal) / self.short_circuit


@lru_cache(maxsize=4)
def batteries(system: System) -> dict[str, Battery]:
    """Every bank and battery by name."""
    return {node.name: _battery(node) for node in system.nodes.values() if node.kind.name in ("bank", "battery")}


def _battery(node: Node) -> Battery:
    chemistry, capacity = node["chemistry"], node["capacity"]
    window = battery.window(chemistry, node["voltage"], node.get("cells"))
    return Battery(node, window, capacity, node.get("short circuit") or fault.estimated(chemistry, capacity))


def _nets(system: System) -> dict[str, int]:
    """The net of each terminal: what dc conductors, joints and devices join."""
    inside = (one for one in system.insides if one.form != "common")
    every = (*system.conductors, *system.joints, *inside)
    joined = neighbours(one for one in every if one.side in ("feed", "return"))
    nets: dict[str, int] = {}
    for number, start in enumerate(system.terminals):
        if start not in nets:
            nets |= dict.fromkeys(reached((start,), joined), number)
    return nets


@lru_cache(maxsize=1)
def _charged(system: System) -> tuple[dict[str, int], dict[int, float]]:
    """The nets, and of each on which a battery's + stands the voltage it is charged to [V]: stacks add up."""
    nets = _nets(system)
    on_top: dict[int, Battery] = {}
    for one in batteries(system).values():
        on_top.setdefault(nets[f"{one.node.name}.+"], one)

    def height(net: int, below: frozenset[int]) -> float:
        if net in below or net not in on_top:
            return 0.0
        one = on_top[net]
        return one.window.absorption + height(nets[f"{one.node.name}.-"], below | {net})

    return nets, {net: height(net, frozenset()) for net in on_top}


def charge_voltage(system: System, terminal: str) -> float | None:
    """[V] at which the battery, or stack of them, whose net holds this terminal is charged; None where there is none."""
    nets, volts = _charged(system)
    return volts.get(nets.get(terminal))
