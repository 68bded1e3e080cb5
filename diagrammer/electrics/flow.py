"""The steady state of a dc network: what flows, or why nothing can."""

from __future__ import annotations

from functools import lru_cache

from diagrammer.electrics.collapse import collapse
from diagrammer.electrics.elimination import Factor, Pattern
from diagrammer.electrics.network import Collapse, Flow, Network
from diagrammer.electrics.nodal import LIVE, Groups, Nodal, NoSolution, State
from diagrammer.electrics.settle import giver_amps, settle


def solve(network: Network) -> Flow | Collapse:
    """Voltages and currents of `network`: O(n) on trees, near it on networks that are nearly trees.

    Loads whose two nodes no conductor joins, or that stand the wrong way round, are dead and draw nothing.
    """
    nodal = Nodal(network)
    try:
        return describe(nodal, settle(nodal)[1])
    except NoSolution:
        return collapse(network)


def load_amps(nodal: Nodal, state: State) -> dict[str, float]:
    amps, rest = {}, iter(zip(nodal.loads, state.live))
    for load in nodal.network.loads:
        i, j = nodal.ends(load)
        across = state.volts[i] - state.volts[j]
        if load.sort == "resistance":
            amps[load.name] = across / load.value
            continue
        (_, _, sort, value), live = next(rest)
        amps[load.name] = (value if sort == "current" else value / across) if live else 0.0
    return amps


def describe(nodal: Nodal, state: State) -> Flow:
    network, v = nodal.network, state.volts
    amps = {s.name: g * (volts - v[i] + v[j]) for s, (i, j, g, volts) in zip(network.sources, nodal.sources)}
    amps |= {giver.name: giver_amps(nodal, state, number) for number, giver in enumerate(nodal.givers)}
    loads = load_amps(nodal, state)
    drawn, dead, low = {}, [], []
    for (i, j), watts, fed, converter in zip(nodal.inputs, state.input, state.fed, network.converters):
        drawn[converter.name] = watts / (v[i] - v[j]) if watts else 0.0
        if not fed:
            dead.append(converter.name)
        elif v[i] - v[j] < converter.least:
            low.append(converter.name)
    live = iter(state.live)
    for load in network.loads:
        i, j = nodal.ends(load)
        if not (v[i] - v[j] > LIVE if load.sort == "resistance" else next(live)):
            dead.append(load.name)
        elif v[i] - v[j] < load.least:
            low.append(load.name)
    branches = branch_amps(nodal, state, amps, drawn, loads)
    volts = {name: v[node] for name, node in nodal.node.items()}
    return Flow(volts, {**branches, **amps, **loads}, drawn, tuple(dead), tuple(low),
                imbalance(nodal, volts, branches, amps, drawn, loads))


def branch_amps(nodal: Nodal, state: State, given, drawn, loads) -> dict[str, float]:
    """Currents of the branches; of joints by Kirchhoff's current law, evenly where joints lie parallel."""
    network, v = nodal.network, state.volts
    amps = {
        b.name: (v[nodal.node[b.a]] - v[nodal.node[b.b]]) / b.ohms for b in network.branches if b.ohms > 0
    }
    joints = [b for b in network.branches if b.ohms == 0]
    if not joints:
        return amps
    index = {name: number for number, name in enumerate(nodal.names)}
    injected = [0.0] * len(index)
    for part in (*network.sources, *nodal.givers):
        injected[index[part.plus]] += given[part.name]
        injected[index[part.minus]] -= given[part.name]
    flows = [(b.a, b.b, amps[b.name]) for b in network.branches if b.ohms > 0]
    flows += [(load.plus, load.minus, loads[load.name]) for load in network.loads]
    flows += [(c.from_plus, c.from_minus, drawn[c.name]) for c in network.converters]
    for a, b, current in flows:
        injected[index[a]] -= current
        injected[index[b]] += current
    level = leveller(len(index), tuple((index[b.a], index[b.b]) for b in joints)).solve(injected)
    return amps | {b.name: level[index[b.a]] - level[index[b.b]] for b in joints}


@lru_cache(maxsize=8)
def leveller(count: int, joints: tuple[tuple[int, int], ...]) -> Factor:
    """Solves for potentials whose differences are the currents of the joints, one node of each group at zero."""
    groups = Groups(count)
    for i, j in joints:
        groups.join(i, j)
    stamps = [(i, j, 1.0) for i, j in joints if i != j]
    stamps += [(i, -1, 1.0) for i in range(count) if groups.find(i) == i]
    return Pattern(count, joints).factor(stamps)


def imbalance(nodal: Nodal, volts, branches, given, drawn, loads) -> float:
    """Power given less power used, over the power given (Tellegen: zero where Kirchhoff's laws hold)."""
    network = nodal.network
    out = [given[p.name] * (volts[p.plus] - volts[p.minus]) for p in (*network.sources, *nodal.givers)]
    used = [loads[p.name] * (volts[p.plus] - volts[p.minus]) for p in network.loads]
    used += [drawn[p.name] * (volts[p.from_plus] - volts[p.from_minus]) for p in network.converters]
    used += [branches[p.name] ** 2 * p.ohms for p in network.branches]
    moved = sum(map(abs, out))
    return (sum(out) - sum(used)) / moved if moved else 0.0
