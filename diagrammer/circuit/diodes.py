"""Diodes in a power flow: each passes current from 1 to 2 only, and loses nothing that is counted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from diagrammer.circuit.wires import Wires, but
from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Collapse, Flow, Network

LEAST = 1e-3  # [A], [V] below it a diode is at rest


def settled(network: Network, wires: Wires, temperature: float) -> Flow | Collapse:
    """What flows, with every diode open that would pass current backwards, and no other; wires: with all of them
    closed, at `temperature` [°C]."""
    blocked: frozenset[int] = frozenset()
    tried = {blocked}
    found = solve(network, wires.wiring)
    while isinstance(found, Flow) and (blocked := _after(wires, found, blocked)) not in tried:
        tried.add(blocked)
        left = but(wires, blocked, temperature)
        found = solve(replace(network, branches=left.branches), left.wiring)
    return found


def _after(wires: Wires, found: Flow, blocked: frozenset[int]) -> frozenset[int]:
    """The diodes to be open after what flows with some of them open."""
    return (blocked | _backwards(wires, found, blocked)) - _forwards(wires, found, blocked)


def _diodes(wires: Wires) -> Iterator[int]:
    return (number for number in wires.closed if wires.system.insides[number].form == "diode")


def _backwards(wires: Wires, found: Flow, blocked: frozenset[int]) -> frozenset[int]:
    """The diodes from whose 2 to whose 1 current flows."""
    insides = wires.system.insides
    return frozenset(number for number in _diodes(wires) if number not in blocked
                     and found.amps.get(f"inside {insides[number].node} {number}", 0.0) < -LEAST)


def _forwards(wires: Wires, found: Flow, blocked: frozenset[int]) -> frozenset[int]:
    """Those of the blocked that stand the other way after all: their 1 is above their 2."""
    volts = found.volts
    return frozenset(number for number in blocked if (one := wires.system.insides[number]).a in volts and one.b in volts
                     and volts[one.a] - volts[one.b] > LEAST)
