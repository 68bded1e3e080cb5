"""A converter's or inverter's input voltage falls below what it needs under full load.

Why: it switches off just when it is needed most, comes back when the voltage recovers, and off again.

Fix: take thicker or shorter conductors to it, place it nearer to the bank, or take one that runs at a lower
voltage.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.converters import efficiency
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.thevenin import seen
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, span
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("the data sheet of the converter", "common practice: the bank at its nominal voltage, conductors hot")
SYMPTOMS = ("voltage-drop", "protection-will-not-clear")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 4 kA}
  step-up: {kind: converter, voltage: 24 V, output: 15 A, input voltage: 11 .. 15 V}
  winch: {kind: load, voltage: 24 V, power: 300 W}
circuits:
  - {feed: bank/fuse 60 A -> switch battery 100 A -> step-up.in, wire: [2 AWG 1 m, 1 m]}
  - {feed: step-up -> winch, wire: 10 AWG 2 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 4 kA}
  step-up: {kind: converter, voltage: 24 V, output: 15 A, input voltage: 11 .. 15 V}
# ^^^^^^^ converter-starved: `step-up` needs 11 to 15 V, but gets 10.55 V at full load
  winch: {kind: load, voltage: 24 V, power: 300 W}
circuits:
  - {feed: bank/fuse 60 A -> switch battery 100 A -> step-up.in, wire: [8 AWG 1 m, 6 m]}
  - {feed: step-up -> winch, wire: 10 AWG 2 m}
"""
INPUTS = {"converter": ("in", "input voltage"), "dc charger": ("in", "input voltage"),
          "inverter": ("main", "input window"), "inverter charger": ("main", "input window")}


def check(survey: Survey) -> Iterator[Finding]:
    windows = {}
    for node in survey.cleared.system.nodes.values():
        port, field = INPUTS.get(node.kind.name, ("", ""))
        window = node.get(field) if field else None
        if isinstance(window, tuple):
            windows[node.name] = ("" if port == "main" else f"{port}.", window)
    if not windows:
        return
    running = [one if one.flow else _quiet(one) for one in survey.study.nominal]
    for node, (port, window) in ((survey.cleared.system.nodes[one], found) for one, found in windows.items()):
        ends = f"{node.name}.{port}+", f"{node.name}.{port}-"
        volts = min((_volts(survey, one, node, ends) for one in running if one.flow), default=math.inf)
        if volts < window[0]:
            gets = f"gets {show(volts, 'V', 4)} at full load" if volts else "its line cannot carry its full load"
            message = f"{name(node.name)} needs {span(*window, 'V')}, but {gets}"
            yield finding(__name__, survey, Fact("converter-starved", nodes=(node.name,)), message)


def _quiet(operation: Operation) -> Operation:
    """The state with no loads on, where with them nothing can flow."""
    off = {node.name for node in operation.system.nodes.values() if node.kind.uses}
    return Operation(operation.system, replace(operation.state, off=operation.state.off | off), operation.charge)


def _volts(survey: Survey, operation: Operation, node: Node, ends: tuple[str, str]) -> float:
    """Voltage [V] at its input with its rated load, the other loads as they are; inf where it does not run or no
    battery feeds it, 0 where there is no such voltage."""
    drawn = sum(amps for part, amps in operation.flow.drawn.items() if part.split(" ")[0] == node.name)
    ohms = seen(operation.network, [ends], operation.wires.wiring)[0].ohms
    if math.isinf(ohms) or node.kind.name == "dc charger" and not drawn:
        return math.inf
    open_volts = operation.volts(*ends) + ohms * drawn
    rest = open_volts**2 - 4 * ohms * _watts(survey, node)
    return (open_volts + math.sqrt(rest)) / 2 if rest >= 0 else 0.0


def _watts(survey: Survey, node: Node) -> float:
    """Input power [W] at the rated output."""
    share = efficiency(node)
    if node.kind.name in ("inverter", "inverter charger"):
        return node["power"] / share
    if node.kind.name == "converter":
        return node["output"] * node["voltage"] / share
    return node["output"] * charge_voltage(survey.cleared.system, f"{node.name}.+") / share
