"""The states of chargers and converters that go with the voltages: off, holding their voltage, or at their limit."""

from __future__ import annotations

from diagrammer.electrics.nodal import HOLDING, LIMITED, OFF, Nodal, NoSolution, State, left_over

ROUNDS = 300
SAME = 1e-10  # relative change of a converter's input at which a round is the last
LIVE = 1e-6  # [V] below it a load counts as dead


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
        groups, v = nodal.islands(state.giving), state.volts
        reached = [groups.find(i) == groups.find(j) for i, j in nodal.input_ends]
        fed = [joined and v[i] - v[j] > LIVE for joined, (i, j, _) in zip(reached, nodal.inputs)]
        if fed == state.fed:
            break
        state.fed = fed
        state.giving = wanted_states(nodal, state)
    reached = [groups.find(i) == groups.find(j) for i, j in nodal.load_ends]
    state.live = [joined and v[i] - v[j] > LIVE for joined, (i, j, *_) in zip(reached, nodal.loads)]
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
    for number, giver in enumerate(nodal.givers):
        across = giver_volts(nodal, state, number)
        if number >= chargers and not state.fed[number - chargers] or across > giver.volts * (1 + 1e-9):
            wanted.append(OFF)
        else:
            over = state.giving[number] != OFF and giver.volts - across > giver.ohms * giver.amps * (1 + 1e-9)
            wanted.append(LIMITED if over else HOLDING)
    return wanted


def converter_inputs(nodal: Nodal, state: State) -> list[float]:
    """Power [W] that each converter draws for what it gives, or will once it is limited."""
    inputs = []
    for number, converter in enumerate(nodal.network.converters, len(nodal.network.chargers)):
        watts = giver_volts(nodal, state, number) * min(giver_amps(nodal, state, number), converter.amps)
        fed = state.fed[number - len(nodal.network.chargers)]
        drawn = max(watts, 0.0) * converter.share / converter.efficiency + converter.idle
        inputs.append(nodal.taken * drawn if fed else 0.0)
    return inputs


def giver_amps(nodal: Nodal, state: State, number: int) -> float:
    i, j, g, volts, amps, _ = nodal.given[number]
    if state.giving[number] == HOLDING:
        return g * (volts - state.volts[i] + state.volts[j])
    return amps if state.giving[number] == LIMITED else 0.0


def giver_volts(nodal: Nodal, state: State, number: int) -> float:
    """Voltage [V] at the giver itself."""
    i, j, *_, ohms = nodal.given[number]
    return state.volts[i] - state.volts[j] + ohms * giver_amps(nodal, state, number)


def load_volts(nodal: Nodal, state: State, number: int) -> float:
    """Voltage [V] at the load itself, of those that are no heaters."""
    i, j, sort, value, ohms = nodal.loads[number]
    across = state.volts[i] - state.volts[j]
    if not state.live[number]:
        return across
    return left_over(across, value, ohms) if sort == "power" else across - value * ohms


def input_volts(nodal: Nodal, state: State, number: int) -> float:
    """Voltage [V] at a converter's input itself."""
    i, j, ohms = nodal.inputs[number]
    return left_over(state.volts[i] - state.volts[j], state.input[number], ohms)
