"""A chosen operating state for the drawing: what flows in it, and the words that say which it is."""

from __future__ import annotations

import textwrap
from dataclasses import replace

from diagrammer.circuit.flow import HOT, Operation
from diagrammer.circuit.readings import Reading, readings
from diagrammer.circuit.states import State
from diagrammer.circuit.study import study
from diagrammer.electrics.network import Collapse
from diagrammer.frozen import frozen
from diagrammer.netlist.model import System
from diagrammer.text.suggest import listed


class NoState(ValueError):
    """A name that is no state of the system; the message lists those there are."""


@frozen
class Shown:
    """`name` of the state; `told`: lines that say what the numbers mean, or why there are none."""

    name: str
    told: tuple[str, ...]
    readings: dict[str, Reading]


def shown(system: System, name: str) -> Shown:
    """What flows in the state called `name` (large or small letters), banks at their nominal voltage.

    Of the loads that run for moments only, the largest is on, as the checks count them.

    Raises
    ------
    NoState
        There is no such state.
    """
    state = _called(system, name)
    alone, resting = _momentary(system)
    one = Operation(system, replace(state, off=state.off | resting))
    if isinstance(one.result, Collapse):
        return Shown(state.name, _collapsed(system, state, one.result), {})
    means = [f"Currents, and voltages at the ends of the lines: banks at nominal voltage, conductors at {HOT:g} °C."]
    means += [f"Of the loads that run for moments only, {alone} alone is on."] if resting else []
    return Shown(state.name, (f"State: {state.name}", *means, *_positions(system, state)), readings(one))


def _positions(system: System, state: State) -> tuple[str, ...]:
    """How what has several positions stands, in lines of moderate length."""
    said = [f"{system.nodes[name].label} {position}" for name, position in state.positions.items()]
    return tuple(textwrap.wrap(f"Positions: {'; '.join(said)}.", 110)) if said else ()


def _called(system: System, name: str) -> State:
    known = {state.name.casefold(): state for state in study(system).states}
    if name.strip().casefold() not in known:
        names = listed([f"`{state.name}`" for state in known.values()])
        raise NoState(f"there is no state `{name}`; the states of this system: {names}")
    return known[name.strip().casefold()]


def _momentary(system: System) -> tuple[str, frozenset[str]]:
    """The largest of the momentary loads, and the others."""
    names = study(system).momentary
    if not names:
        return "", frozenset()
    largest = max((node for node in system.nodes.values() if node.name in names), key=_watts)
    return largest.label, names - {largest.name}


def _watts(node) -> float:
    volts = node.get("voltage") or 0.0
    volts = volts[-1] if isinstance(volts, tuple) else volts
    return (node.get("power") or (node.get("current") or 0.0) * volts) * (node.get("count") or 1)


def _collapsed(system: System, state: State, why: Collapse) -> tuple[str, ...]:
    words = why.branch.split(" ")
    part = words[1] if words[0] == "inside" else "" if words[0] == "joint" else why.branch
    lost = f"; most of it is lost in {part}" if part else ""
    return (
        f"State: {state.name} - cannot last",
        f"The voltage gives way at {why.load}{lost}. The wiring carries {100 * why.share:.0f} % of these loads.",
        "No currents and voltages are written, as there is no steady state.",
    )
