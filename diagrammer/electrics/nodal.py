"""Nodal equations of a dc network, solved by Newton's method from the open-circuit voltages downwards.

The current of a constant-power load is convex in its voltage, so that the iteration falls monotonically to the higher
of its solutions and a matrix that is no longer positive definite proves that there is none.
"""

from __future__ import annotations

import math

from diagrammer.electrics.elimination import Factor, NotPositive, factored, pattern
from diagrammer.electrics.network import Network
from diagrammer.frozen import changing

OFF, HOLDING, LIMITED = "off", "holding", "limited"
STEPS = 80  # of Newton's method; a network that has a solution needs about six
CLOSE = 1e-12  # relative step at which it ends
NEAR = 1e-3  # a step this much smaller than the last, and than the voltages, needs no new matrix for the next one
LIVE = 1e-6  # [V] below it a load counts as dead


class NoSolution(ArithmeticError):
    """Newton's method found none."""


class Groups:
    """Union of nodes, by index."""

    def __init__(self, count: int):
        self.parent = list(range(count))

    def copy(self) -> Groups:
        made = Groups(0)
        made.parent = list(self.parent)
        return made

    def find(self, i: int) -> int:
        while self.parent[i] != i:
            self.parent[i] = self.parent[self.parent[i]]
            i = self.parent[i]
        return i

    def join(self, i: int, j: int) -> None:
        i, j = self.find(i), self.find(j)
        if i != j:
            self.parent[max(i, j)] = min(i, j)


@changing
class State:
    """What may change between two rounds: node voltages, which loads are live, what givers do, converter inputs [W]."""

    volts: list[float]
    live: list[bool]
    giving: list[str]
    input: list[float]
    fed: list[bool]

    def copy(self) -> State:
        return State(list(self.volts), list(self.live), list(self.giving), list(self.input), list(self.fed))


class Nodal:
    """A network by numbers: joints contracted, one reference for each island.

    `scale` multiplies what the loads draw, `taken` what the converters take for what they give.
    """

    def __init__(self, network: Network, scale: float = 1.0, taken: float = 1.0):
        self.network, self.taken = network, taken
        self.names = node_names(network)
        index = {name: number for number, name in enumerate(self.names)}
        merged = Groups(len(self.names))
        for branch in network.branches:
            if branch.ohms == 0:
                merged.join(index[branch.a], index[branch.b])
        roots = sorted({merged.find(i) for i in range(len(self.names))})
        number = {root: n for n, root in enumerate(roots)}
        self.node = {name: number[merged.find(i)] for name, i in index.items()}
        self.count = len(roots)
        self.fixed = []  # (i, j, conductance): branches and resistive loads
        for branch in network.branches:
            if branch.ohms > 0 and self.node[branch.a] != self.node[branch.b]:
                self.fixed.append((self.node[branch.a], self.node[branch.b], 1 / branch.ohms))
        for load in network.loads:
            if load.sort == "resistance" and self.node[load.plus] != self.node[load.minus]:
                self.fixed.append((self.node[load.plus], self.node[load.minus], scale / load.value))
        self.sources = [(*self.ends(s), 1 / s.ohms, s.volts) for s in network.sources]
        self.givers = (*network.chargers, *network.converters)
        self.given = [(*self.ends(g), 1 / g.ohms, g.volts, g.amps) for g in self.givers]
        self.loads = [
            (*self.ends(load), load.sort, load.value * scale) for load in network.loads if load.sort != "resistance"
        ]
        self.inputs = [(self.node[c.from_plus], self.node[c.from_minus]) for c in network.converters]
        self.joined = Groups(self.count)  # by what never changes
        for i, j, *_ in (*self.fixed, *self.sources):
            self.joined.join(i, j)
        self.number_unknowns()
        self.factor: Factor | None = None  # the last, and what givers did then
        self.factored: list[str] = []

    def ends(self, part) -> tuple[int, int]:
        return self.node[part.plus], self.node[part.minus]

    def islands(self, giving: list[str] | None = None) -> Groups:
        """Nodes joined by what conducts without a load; with `giving` only through givers that hold or give."""
        groups = self.joined.copy()
        for number, (i, j, *_) in enumerate(self.given):
            if giving is None or giving[number] != OFF:
                groups.join(i, j)
        return groups

    def number_unknowns(self) -> None:
        """One reference for each island: the minus of its first source, else of its first giver, else any node."""
        groups, reference = self.islands(), {}
        for _, minus, *_ in (*self.sources, *self.given):
            reference.setdefault(groups.find(minus), minus)
        for node in range(self.count):
            reference.setdefault(groups.find(node), node)
        grounded = set(reference.values())
        self.unknown = [-1] * self.count
        for place, node in enumerate(node for node in range(self.count) if node not in grounded):
            self.unknown[node] = place
        straight = self._pairs(*self.fixed, *self.sources, *self.given)
        self.straight = pattern(self.count - len(grounded), straight)
        self.pattern = pattern(self.count - len(grounded), straight | self._pairs(*self.loads, *self.inputs))

    def _pairs(self, *elements) -> frozenset[tuple[int, int]]:
        pairs = ((self.unknown[i], self.unknown[j]) for i, j, *_ in elements)
        return frozenset((i, j) for i, j in pairs if i >= 0 and j >= 0)

    def begin(self) -> State:
        holding = [HOLDING] * len(self.network.chargers) + [OFF] * len(self.network.converters)
        inputs = len(self.inputs)
        return State([0.0] * self.count, [False] * len(self.loads), holding, [0.0] * inputs, [False] * inputs)

    def currents(self, state: State) -> tuple[list[tuple[int, int, float, float]], bool]:
        """Every element as (i, j, current from i to j, its slope), and whether all loads stand above zero volts."""
        v, elements, upright = state.volts, [], True
        for i, j, g in self.fixed:
            elements.append((i, j, g * (v[i] - v[j]), g))
        for i, j, g, volts in self.sources:
            elements.append((i, j, g * (v[i] - v[j] - volts), g))
        for (i, j, g, volts, amps), giving in zip(self.given, state.giving):
            if giving == HOLDING:
                elements.append((i, j, g * (v[i] - v[j] - volts), g))
            elif giving == LIMITED:
                elements.append((i, j, -amps, 0.0))
        asked = [(i, j, sort, value) for (i, j, sort, value), live in zip(self.loads, state.live) if live]
        asked += [(i, j, "power", watts) for (i, j), watts in zip(self.inputs, state.input) if watts]
        for i, j, sort, value in asked:
            across = v[i] - v[j]
            if sort == "current":
                elements.append((i, j, value, 0.0))
            elif across > 0:
                elements.append((i, j, value / across, -value / across**2))
            else:
                upright = False
        return elements, upright

    def newton(self, state: State) -> None:
        """Bring `state.volts` to the steady state for loads, givers and inputs as they are.

        Raises
        ------
        NoSolution
            There is none, or none was found.
        """
        bent = any(state.live) or any(state.input)
        factor = self.factor if bent and self.factored == state.giving else None
        stale, size = factor is None, math.inf
        for _ in range(STEPS):
            elements, upright = self.currents(state)
            if not upright:
                raise NoSolution
            if stale:
                factor = self.factor_of(elements, bent)
                self.factor, self.factored = factor, state.giving
            step = factor.solve(self.unbalanced(elements))
            if factor.unheld and factor.unheld > 1e-6 * max(abs(amps) for _, _, amps, _ in elements):
                raise NoSolution
            for node, place in enumerate(self.unknown):
                if place >= 0:
                    state.volts[node] += step[place]
            last, size = size, max(map(abs, step), default=0.0)
            span = max(map(abs, state.volts), default=0.0)
            if not bent or size <= CLOSE * span or (size <= 1e-9 * span and size >= last / 2):
                return
            stale = size > NEAR * min(last, span)
        raise NoSolution

    def factor_of(self, elements, bent: bool) -> Factor:
        """The matrix of the elements' slopes, factored. Raises NoSolution."""
        unknown = self.unknown
        ends = ((unknown[i], unknown[j], slope) for i, j, _, slope in elements)
        stamps = tuple((i, j, slope) if i >= 0 else (j, -1, slope) for i, j, slope in ends if i != j)
        try:
            return self.pattern.factor(stamps) if bent else factored(self.straight, stamps)
        except NotPositive as error:
            raise NoSolution from error

    def unbalanced(self, elements) -> list[float]:
        """What flows into each unknown more than out of it [A]; what the references take comes last."""
        unknown, right = self.unknown, [0.0] * (self.count + 1)
        for i, j, amps, _ in elements:
            right[unknown[i]] -= amps
            right[unknown[j]] += amps
        return right


def node_names(network: Network) -> tuple[str, ...]:
    """Every node, in the order in which the network names it first."""
    names: list[str] = []
    for source in network.sources:
        names += source.plus, source.minus
    for branch in network.branches:
        names += branch.a, branch.b
    for part in (*network.loads, *network.chargers, *network.converters):
        names += part.plus, part.minus
    for converter in network.converters:
        names += converter.from_plus, converter.from_minus
    return tuple(dict.fromkeys(names))
