"""The steady state of a dc network: what flows, or why nothing can."""

from __future__ import annotations

from diagrammer.electrics.collapse import collapse
from diagrammer.electrics.currents import branch_amps, currents, voltages
from diagrammer.electrics.network import Collapse, Flow, Network
from diagrammer.electrics.nodal import Nodal, NoSolution, State
from diagrammer.electrics.settle import LIVE, settle
from diagrammer.electrics.wiring import Wiring, wiring_of


def solve(network: Network, wiring: Wiring | None = None) -> Flow | Collapse:
    """Voltages and currents of `network`: O(n) on trees, near it on networks that are nearly trees.

    Loads whose two nodes no conductor joins, or that stand the wrong way round, are dead and draw nothing.
    `wiring`: that of the same branches, with all nodes on which parts stand among its ends; made where none is given.
    """
    wiring = wiring or wiring_of(network)
    try:
        nodal = Nodal(network, wiring)
        return _described(nodal, settle(nodal)[1])
    except NoSolution:
        return collapse(network, wiring)


def _described(nodal: Nodal, state: State) -> Flow:
    network, wiring, flows = nodal.network, nodal.wiring, currents(nodal, state)
    everywhere = voltages(nodal, state, flows)
    amps = branch_amps(wiring, everywhere, flows)
    amps |= zip((part.name for part in (*network.sources, *nodal.givers)), flows.given)
    amps |= zip((load.name for load in network.loads), flows.used)
    volts = {name: everywhere[node] for name, node in wiring.node.items()}
    for name in wiring.bare - network.ends:
        del volts[name]
    drawn = dict(zip((one.name for one in network.converters), flows.drawn))
    return Flow(volts, amps, drawn, *_unserved(nodal, state, volts))


def _unserved(nodal: Nodal, state: State, volts: dict[str, float]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The loads and converters that are dead, and those whose voltage is too low."""
    live, dead, low = iter(state.live), [], []
    for one, fed in zip(nodal.network.converters, state.fed):
        if not fed:
            dead.append(one.name)
        elif volts[one.from_plus] - volts[one.from_minus] < one.least:
            low.append(one.name)
    for load in nodal.network.loads:
        across = volts[load.plus] - volts[load.minus]
        if not (across > LIVE if load.sort == "resistance" else next(live)):
            dead.append(load.name)
        elif across < load.least:
            low.append(load.name)
    return tuple(dead), tuple(low)


def imbalance(network: Network, flow: Flow) -> float:
    """Power given less power used, over the power given (Tellegen: zero where Kirchhoff's laws hold)."""
    volts, amps = flow.volts, flow.amps
    givers = (*network.sources, *network.chargers, *network.converters)
    out = [amps[p.name] * (volts[p.plus] - volts[p.minus]) for p in givers]
    used = [amps[p.name] * (volts[p.plus] - volts[p.minus]) for p in network.loads]
    used += [flow.drawn[p.name] * (volts[p.from_plus] - volts[p.from_minus]) for p in network.converters]
    used += [amps[p.name] ** 2 * p.ohms for p in network.branches]
    moved = sum(map(abs, out))
    return (sum(out) - sum(used)) / moved if moved else 0.0
