"""Where currents computed are a symptom: in the leads of batteries that stand beside a faulty or unlike one."""

from __future__ import annotations

from collections.abc import Collection

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.paths import paths
from diagrammer.circuit.view import View


def doubtful(start: View, cleared: View) -> frozenset[str]:
    """The circuits that lead to a battery, where a battery's own line has been left out of what is computed, or where
    unlike ones in parallel drive current through each other; and those that no battery holds without that line."""
    stores = batteries(start.system)
    left = {line.name for line in cleared.system.circuits}
    leads = {line.name: nodes for line in start.system.circuits if (nodes := _nodes(line) & stores.keys())}
    lost = [line for line in leads if line not in left]
    if lost or _unlike(cleared):
        return frozenset(leads) | _adrift(start, cleared, lost)
    return frozenset()


def _adrift(start: View, cleared: View, lost: Collection[str]) -> frozenset[str]:
    """The circuits on which, but for the lines left out, a battery would stand: sun and wind drive there what they
    would give to it."""
    stores, gone = batteries(start.system), [line for line in start.system.circuits if line.name in lost]
    taken = frozenset().union(*map(_nodes, gone)) & stores.keys()
    ends = [end for line in gone for leg in line.legs for stop in leg.stops if stop.node not in taken
            for end in (stop.enter, stop.leave)]
    reached = paths(cleared).reach(ends)
    if any(f"{name}.+" in reached for name in stores):
        return frozenset()
    return frozenset(line.name for line in cleared.system.circuits for leg in line.legs for stop in leg.stops
                     if stop.leave in reached)


def _nodes(line) -> set[str]:
    return {stop.node for leg in line.legs for stop in leg.stops}


def _unlike(view: View) -> bool:
    """Whether batteries of one duty and net have different voltages."""
    found: dict[tuple[int, str], float] = {}
    for name, one in batteries(view.system).items():
        volts, _ = one.at("low")
        key = (view.nets[f"{name}.+"], one.node["duty"])
        if found.setdefault(key, volts) != volts:
            return True
    return False
