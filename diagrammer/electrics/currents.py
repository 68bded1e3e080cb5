"""What flows in every part and branch of a settled network, and the voltage of every node."""

from __future__ import annotations

from diagrammer.electrics.nodal import Nodal, State
from diagrammer.electrics.settle import giver_amps, input_volts, load_volts
from diagrammer.electrics.wiring import Wiring
from diagrammer.frozen import frozen


@frozen(eq=False)
class Currents:
    """Of sources and givers what comes out of them [A], of loads, heaters among them, and converters what goes in, each
    in the order of the network; `pushed`: (place of a name, place of a name, current through a part to the first)."""

    given: list[float]
    used: list[float]
    drawn: list[float]
    pushed: list[tuple[int, int, float]]


def currents(nodal: Nodal, state: State) -> Currents:
    network, index, v = nodal.network, nodal.wiring.index, state.volts
    given = [g * (volts - v[i] + v[j]) for i, j, g, volts in nodal.sources]
    given += [giver_amps(nodal, state, number) for number in range(len(nodal.givers))]
    heating = iter([g * (v[i] - v[j]) for i, j, g in nodal.heaters])
    asked = iter([_asked(nodal, state, number) for number in range(len(nodal.loads))])
    used = [next(heating if load.sort == "resistance" else asked) for load in network.loads]
    drawn = [watts / input_volts(nodal, state, number) if watts else 0.0 for number, watts in enumerate(state.input)]
    pushed = [(index[one.plus], index[one.minus], amps) for one, amps in zip((*network.sources, *nodal.givers), given)]
    pushed += [(index[one.minus], index[one.plus], amps) for one, amps in zip(network.loads, used)]
    pushed += [(index[one.from_minus], index[one.from_plus], amps) for one, amps in zip(network.converters, drawn)]
    return Currents(given, used, drawn, pushed)


def _asked(nodal: Nodal, state: State, number: int) -> float:
    if not state.live[number]:
        return 0.0
    *_, sort, value, _ = nodal.loads[number]
    return value if sort == "current" else value / load_volts(nodal, state, number)


def voltages(nodal: Nodal, state: State, flows: Currents) -> list[float]:
    """The voltage [V] of every node of the wiring, by its number."""
    places, injected = nodal.wiring.places, [0.0] * nodal.wiring.count
    for i, j, amps in flows.pushed:
        injected[places[i]] += amps
        injected[places[j]] -= amps
    volts = [state.volts[unknown] for unknown in nodal.unknown]
    nodal.leaves.spread(volts, injected)
    return nodal.wiring.everywhere(volts)


def branch_amps(wiring: Wiring, volts: list[float], flows: Currents) -> dict[str, float]:
    """Currents of the branches [A]; of joints by Kirchhoff's current law, evenly where joints lie parallel."""
    injected, found = [0.0] * len(wiring.index), {}
    for i, j, amps in flows.pushed:
        injected[i] += amps
        injected[j] -= amps
    for name, a, b, ohms, i, j in wiring.resistive:
        found[name] = amps = (volts[a] - volts[b]) / ohms
        injected[i] -= amps
        injected[j] += amps
    if wiring.bolted:
        found |= zip(wiring.bolted, wiring.joints.amps(injected))
    return found
