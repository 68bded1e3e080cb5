"""Where currents computed are a symptom: in the leads of batteries that stand beside a faulty or unlike one."""

from __future__ import annotations

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.view import View


def doubtful(start: View, cleared: View) -> frozenset[str]:
    """The circuits that lead to a battery, where a battery's own line has been left out of what is computed, or where
    unlike ones in parallel drive current through each other."""
    stores = batteries(start.system)
    left = {line.name for line in cleared.system.circuits}
    leads = {line.name: nodes for line in start.system.circuits if (nodes := _nodes(line) & stores.keys())}
    if any(line not in left for line in leads) or _unlike(cleared):
        return frozenset(leads)
    return frozenset()


def _nodes(line) -> set[str]:
    return {stop.node for leg in line.legs for stop in leg.stops}


def _unlike(view: View) -> bool:
    """Whether batteries of one duty and net have different voltages."""
    found: dict[tuple[int, str], float] = {}
    for name, one in batteries(view.system).items():
        volts, _ = one.at("low")
        key = (view.nets[f"{name}.+"], one.node.get("duty") or "house")
        if abs(found.setdefault(key, volts) - volts) > 1e-6 * volts:
            return True
    return False
