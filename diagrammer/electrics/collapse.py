"""Why a dc network has no steady state: how much it could carry, which load gives way, and where."""

from __future__ import annotations

from diagrammer.electrics.currents import currents, voltages
from diagrammer.electrics.network import Collapse, Network
from diagrammer.electrics.nodal import HOLDING, OFF, Nodal, NoSolution, State
from diagrammer.electrics.settle import giver_amps, settle
from diagrammer.electrics.wiring import Wiring
from diagrammer.frozen import frozen


def collapse(network: Network, wiring: Wiring) -> Collapse:
    """Find how much of the loads the network could still carry, and what gives way there."""
    share, nodal, states = most_carried(lambda part: Nodal(network, wiring, part))
    if states is None:  # converters that feed each other ask too much without any load
        _, nodal, states = most_carried(lambda part: Nodal(network, wiring, 0.0, part))
    return Collapse(*weakest(nodal, *states), share) if states else Collapse("", "", 0.0)


def most_carried(nodal_of) -> tuple[float, Nodal | None, tuple[State, State] | None]:
    """The largest part, to 2 ** -15, of which nodal_of(part) has a steady state; that network, and its states."""
    low, high, found = 0.0, 1.0, (0.0, None, None)
    for step in range(16):
        part = (low + high) / 2 if step else 0.0
        nodal = nodal_of(part)
        try:
            found, low = (part, nodal, settle(nodal)), part
        except NoSolution:
            high = part
        if high == 0.0:
            break
    return found


@frozen
class Asked:
    """What a load or a converter's input asks, and the nodes between which it stands."""

    name: str
    plus: int
    minus: int
    watts: float


def asked(nodal: Nodal, state: State, volts: list[float]) -> list[Asked]:
    found = []
    for load, (i, j), (*_, sort, value, _), live in zip(nodal.drawing, nodal.load_ends, nodal.loads, state.live):
        if live and value:
            found.append(Asked(load.name, i, j, value if sort == "power" else value * (volts[i] - volts[j])))
    for converter, (i, j), watts in zip(nodal.network.converters, nodal.input_ends, state.input):
        if watts:
            found.append(Asked(converter.name, i, j, watts))
    return found


def weakest(nodal: Nodal, empty: State, state: State) -> tuple[str, str]:
    """The load (or converter) whose voltage fell most, and the part on its way that loses most."""
    before, now = (voltages(nodal, one, currents(nodal, one)) for one in (empty, state))
    parts = asked(nodal, state, now)
    if not parts:
        return "", ""
    spent = exhausted(nodal, state, parts)
    if spent:
        return spent

    def left(one: Asked) -> float:
        return (now[one.plus] - now[one.minus]) / (before[one.plus] - before[one.minus])

    one = min(parts, key=left)
    return one.name, most_lossy(nodal, state, now, one)


def exhausted(nodal: Nodal, state: State, parts: list[Asked]) -> tuple[str, str] | None:
    """The largest load of an island that hangs on givers alone, one of them at its limit; and that one."""
    groups = nodal.islands([OFF] * len(nodal.givers))
    backed = {groups.find(i) for i, _ in nodal.source_ends}
    for number, giver in enumerate(nodal.givers):
        island = groups.find(nodal.giver_ends[number][0])
        fed = [one for one in parts if groups.find(one.plus) == island]
        if fed and island not in backed and giver_amps(nodal, state, number) >= 0.99 * giver.amps:
            return max(fed, key=lambda one: one.watts).name, giver.name
    return None


def most_lossy(nodal: Nodal, state: State, volts: list[float], one: Asked) -> str:
    """Walk from a load along the largest current to a source, on both poles: the part with the largest drop."""
    edges, ends = {}, {}
    for name, i, j, ohms, *_ in nodal.wiring.resistive:
        if i != j:
            amps, lost = (volts[i] - volts[j]) / ohms, abs(volts[i] - volts[j])
            edges.setdefault(j, []).append((amps, i, name, lost))
            edges.setdefault(i, []).append((-amps, j, name, lost))
    for giver, (i, j), giving in zip(nodal.givers, nodal.giver_ends, state.giving):
        if giving == HOLDING:
            ends[i] = ends[j] = (giver.volts - volts[i] + volts[j], giver.name)
    for source, (i, j) in zip(nodal.network.sources, nodal.source_ends):
        ends[i] = ends[j] = (source.volts - volts[i] + volts[j], source.name)
    worst = (0.0, "")
    for node, sign in ((one.plus, 1), (one.minus, -1)):
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
