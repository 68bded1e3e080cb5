"""The steady state of a dc network: what flows, or why nothing can."""

from __future__ import annotations

from diagrammer.electrics.elimination import Pattern
from diagrammer.electrics.network import Collapse, Flow, Network
from diagrammer.electrics.nodal import HOLDING, LIMITED, LIVE, OFF, Groups, Nodal, NoSolution, State, node_names

ROUNDS = 300
SAME = 1e-10  # relative change of a converter's input at which a round is the last


def solve(network: Network) -> Flow | Collapse:
    """Voltages and currents of `network`: O(n) on trees, near it on networks that are nearly trees.

    Loads whose two nodes no conductor joins, or that stand the wrong way round, are dead and draw nothing.
    """
    nodal = Nodal(network)
    try:
        return describe(nodal, settle(nodal)[1])
    except NoSolution:
        return collapse(network)


def settle(nodal: Nodal) -> tuple[State, State]:
    """The open circuit and the steady state.

    Raises
    ------
    NoSolution
        There is no steady state, or the states of chargers and converters do not come to rest.
    """
    state = nodal.begin()
    while True:
        rest(nodal, state, state)
        groups = nodal.islands(state.giving)
        fed = [groups.find(i) == groups.find(j) and state.volts[i] - state.volts[j] > LIVE for i, j in nodal.inputs]
        if fed == state.fed:
            break
        state.fed = fed
    state.live = [
        groups.find(i) == groups.find(j) and state.volts[i] - state.volts[j] > LIVE for i, j, *_ in nodal.loads
    ]
    empty = state.copy()
    empty.live = [False] * len(nodal.loads)
    rest(nodal, state, empty)
    return empty, state


def rest(nodal: Nodal, state: State, empty: State) -> None:
    """Repeat Newton's method until givers and converter inputs change no more; from `empty` again if it fails."""
    seen = set()
    for _ in range(ROUNDS):
        try:
            nodal.newton(state)
        except NoSolution:
            state.volts = list(empty.volts)
            nodal.newton(state)
        wanted = wanted_states(nodal, state)
        if tuple(wanted) in seen and wanted != state.giving:  # going round: one change at a time
            first = next(n for n, (old, new) in enumerate(zip(state.giving, wanted)) if old != new)
            wanted = [*state.giving[:first], wanted[first], *state.giving[first + 1:]]
        inputs = converter_inputs(nodal, state)
        same = all(abs(new - old) <= SAME * max(new, old, 100.0) for new, old in zip(inputs, state.input))
        if wanted == state.giving and same:
            return
        seen.add(tuple(state.giving))
        state.giving, state.input = wanted, inputs
    raise NoSolution


def wanted_states(nodal: Nodal, state: State) -> list[str]:
    chargers, wanted = len(nodal.network.chargers), []
    for number, (i, j, g, volts, amps) in enumerate(nodal.given):
        across = state.volts[i] - state.volts[j]
        if number >= chargers and not state.fed[number - chargers] or across > volts * (1 + 1e-9):
            wanted.append(OFF)
        else:
            over = state.giving[number] != OFF and g * (volts - across) > amps * (1 + 1e-9)
            wanted.append(LIMITED if over else HOLDING)
    return wanted


def converter_inputs(nodal: Nodal, state: State) -> list[float]:
    """Power [W] that each converter draws for what it gives."""
    inputs = []
    for number, converter in enumerate(nodal.network.converters, len(nodal.network.chargers)):
        i, j, *_ = nodal.given[number]
        watts = (state.volts[i] - state.volts[j]) * giver_amps(nodal, state, number)
        fed = state.fed[number - len(nodal.network.chargers)]
        inputs.append(max(watts, 0.0) / converter.efficiency + converter.idle if fed else 0.0)
    return inputs


def giver_amps(nodal: Nodal, state: State, number: int) -> float:
    i, j, g, volts, amps = nodal.given[number]
    if state.giving[number] == HOLDING:
        return g * (volts - state.volts[i] + state.volts[j])
    return amps if state.giving[number] == LIMITED else 0.0


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
    stamps = [(index[b.a], index[b.b], 1.0) for b in joints if b.a != b.b]
    groups = Groups(len(index))
    for i, j, _ in stamps:
        groups.join(i, j)
    stamps += [(i, -1, 1.0) for i in range(len(index)) if groups.find(i) == i]
    level = Pattern(len(index), [(i, j) for i, j, _ in stamps if j >= 0]).factor(stamps).solve(injected)
    return amps | {b.name: level[index[b.a]] - level[index[b.b]] for b in joints}


def imbalance(nodal: Nodal, volts, branches, given, drawn, loads) -> float:
    """Power given less power used, over the power given (Tellegen: zero where Kirchhoff's laws hold)."""
    network = nodal.network
    out = [given[p.name] * (volts[p.plus] - volts[p.minus]) for p in (*network.sources, *nodal.givers)]
    used = [loads[p.name] * (volts[p.plus] - volts[p.minus]) for p in network.loads]
    used += [drawn[p.name] * (volts[p.from_plus] - volts[p.from_minus]) for p in network.converters]
    used += [branches[p.name] ** 2 * p.ohms for p in network.branches]
    moved = sum(map(abs, out))
    return (sum(out) - sum(used)) / moved if moved else 0.0


def collapse(network: Network) -> Collapse:
    """Find how much of the loads the network could still carry, and what gives way there."""
    low, high, last = 0.0, 1.0, None
    for step in range(16):
        share = (low + high) / 2 if step else 0.0
        nodal = Nodal(network, share)
        try:
            last, low = (nodal, *settle(nodal)), share
        except NoSolution:
            high = share
        if high == 0.0:
            break
    if last is None:
        return Collapse("", "", 0.0)
    return Collapse(*weakest(*last), low)


def weakest(nodal: Nodal, empty: State, state: State) -> tuple[str, str]:
    """The load (or converter) whose voltage fell most, and the part on its way that loses most."""
    spent = exhausted(nodal, state)
    if spent:
        return spent
    parts = [(name, i, j) for name, (i, j, *_), live in zip(load_names(nodal), nodal.loads, state.live) if live]
    parts += [(c.name, i, j) for c, (i, j), watts in zip(nodal.network.converters, nodal.inputs, state.input) if watts]
    if not parts:
        return "", ""
    def left(part):
        _, i, j = part
        return (state.volts[i] - state.volts[j]) / (empty.volts[i] - empty.volts[j])
    name, plus, minus = min(parts, key=left)
    return name, most_lossy(nodal, state, plus, minus)


def load_names(nodal: Nodal) -> list[str]:
    return [load.name for load in nodal.network.loads if load.sort != "resistance"]


def exhausted(nodal: Nodal, state: State) -> tuple[str, str] | None:
    """The largest load of an island that hangs on givers alone, one of them at its limit; and that one."""
    groups = nodal.islands([OFF] * len(nodal.givers))
    backed = {groups.find(i) for i, *_ in nodal.sources}
    for number, giver in enumerate(nodal.givers):
        i, _, _, _, amps = nodal.given[number]
        if groups.find(i) in backed or giver_amps(nodal, state, number) < 0.99 * amps:
            continue
        fed = [
            (value, name) for name, (plus, _, _, value) in zip(load_names(nodal), nodal.loads)
            if groups.find(plus) == groups.find(i)
        ]
        if fed:
            return max(fed, key=lambda f: f[0])[1], giver.name
    return None


def most_lossy(nodal: Nodal, state: State, plus: int, minus: int) -> str:
    """Walk from a load along the largest current to a source, on both poles: the part with the largest drop."""
    v, edges = state.volts, {}
    for b in nodal.network.branches:
        i, j = nodal.node[b.a], nodal.node[b.b]
        if b.ohms > 0 and i != j:
            amps = (v[i] - v[j]) / b.ohms
            edges.setdefault(j, []).append((amps, i, b.name, abs(v[i] - v[j])))
            edges.setdefault(i, []).append((-amps, j, b.name, abs(v[i] - v[j])))
    ends = {}
    for s, (i, j, g, volts) in zip(nodal.network.sources, nodal.sources):
        ends[i] = ends[j] = (volts - v[i] + v[j], s.name)
    worst = (0.0, "")
    for node, sign in ((plus, 1), (minus, -1)):
        passed = set()
        while node not in passed:
            passed.add(node)
            worst = max(worst, ends.get(node, worst))
            ways = [(sign * amps, *way) for amps, *way in edges.get(node, ())]
            amps, nearer, name, lost = max(ways, default=(0.0, node, "", 0.0))
            if node in ends or amps <= 0:
                break
            worst, node = max(worst, (lost, name)), nearer
    return worst[1]
