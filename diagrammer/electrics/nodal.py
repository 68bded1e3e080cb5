"""Nodal equations of a dc network, solved by Newton's method from the open-circuit voltages downwards.

The current of a constant-power load is convex in its voltage, behind a resistance too, so that the iteration falls
monotonically to the higher of its solutions and a matrix that is no longer positive definite proves that there is none.
"""

from __future__ import annotations

import math

from diagrammer.electrics.elimination import Factor, NotPositive, Pattern, pattern
from diagrammer.electrics.groups import Groups
from diagrammer.electrics.leaves import Leaves
from diagrammer.electrics.network import Network
from diagrammer.electrics.wiring import Wiring
from diagrammer.frozen import changing

OFF, HOLDING, LIMITED = "off", "holding", "limited"
STEPS = 80  # of Newton's method; a network that has a solution needs about six
CLOSE = 1e-12  # relative step at which it ends
NEAR = 1e-3  # a step this much smaller than the last, and than the voltages, needs no new matrix for the next one


class NoSolution(ArithmeticError):
    """Newton's method found none."""


@changing
class State:
    """What may change between two rounds: voltages of the unknowns and, last, of the references (0 V); which loads are
    live, what givers do, converter inputs [W], which of them are fed."""

    volts: list[float]
    live: list[bool]
    giving: list[str]
    input: list[float]
    fed: list[bool]

    def copy(self) -> State:
        return State(list(self.volts), list(self.live), list(self.giving), list(self.input), list(self.fed))


class Nodal:
    """A network by numbers, on its wiring: one reference for each island, conductors that lead to a single part added
    to that part's own resistance.

    Parts stand between unknowns, -1 for a reference. `scale` multiplies what the loads draw, `taken` what the
    converters take for what they give.
    """

    def __init__(self, network: Network, wiring: Wiring, scale: float = 1.0, taken: float = 1.0):
        self.network, self.wiring, self.taken = network, wiring, taken
        self.givers = (*network.chargers, *network.converters)
        self.drawing = [load for load in network.loads if load.sort != "resistance"]
        self.heating = [load for load in network.loads if load.sort == "resistance"]
        node = wiring.node
        self.source_ends = [(node[one.plus], node[one.minus]) for one in network.sources]
        self.giver_ends = [(node[one.plus], node[one.minus]) for one in self.givers]
        self.load_ends = [(node[one.plus], node[one.minus]) for one in self.drawing]
        self.heater_ends = [(node[one.plus], node[one.minus]) for one in self.heating]
        self.input_ends = [(node[one.from_plus], node[one.from_minus]) for one in network.converters]
        self.joined = wiring.joined.copy()  # by what never changes
        for i, j in (*self.source_ends, *self.heater_ends):
            self.joined.join(i, j)
        references = self._references()
        ends = (*self.source_ends, *self.giver_ends, *self.load_ends, *self.heater_ends, *self.input_ends)
        self.leaves = Leaves(wiring, references, ends)
        self._number_unknowns(references)
        self._place_parts(scale)
        self._find_patterns()
        self.factor: Factor | None = None  # the last, and what givers did then
        self.factored: list[str] = []

    def islands(self, giving: list[str] | None = None) -> Groups:
        """Nodes joined by what conducts without a load; with `giving` only through givers that hold or give."""
        groups = self.joined.copy()
        for number, (i, j) in enumerate(self.giver_ends):
            if giving is None or giving[number] != OFF:
                groups.join(i, j)
        return groups

    def _references(self) -> set[int]:
        """One for each island: the minus of its first source, else of its first giver, else any node."""
        groups, reference = self.islands(), {}
        for _, minus in (*self.source_ends, *self.giver_ends):
            reference.setdefault(groups.find(minus), minus)
        for node in range(self.wiring.count):
            reference.setdefault(groups.find(node), node)
        return set(reference.values())

    def _number_unknowns(self, references: set[int]) -> None:
        moved = self.leaves.moved
        free = [n for n in range(self.wiring.count) if n not in references and n not in moved]
        self.unknown = [-1] * self.wiring.count
        for place, node in enumerate(free):
            self.unknown[node] = place
        self.size = len(free)

    def _place(self, ends: tuple[int, int]) -> tuple[int, int, float]:
        """The unknowns between which a part stands, and the resistance [Ω] that leads to it."""
        i, ahead = self.leaves.root(ends[0])
        j, behind = self.leaves.root(ends[1])
        return self.unknown[i], self.unknown[j], ahead + behind

    def _place_parts(self, scale: float) -> None:
        moved, unknown = self.leaves.moved, self.unknown
        self.fixed = [(unknown[i], unknown[j], g) for i, ways in enumerate(self.wiring.near) if i not in moved
                      for j, g in ways.items() if i < j and j not in moved]
        self.heaters = []
        for load, ends in zip(self.heating, self.heater_ends):
            i, j, ohms = self._place(ends)
            self.heaters.append((i, j, 1 / (load.value / scale + ohms) if scale else 0.0))
        self.fixed += self.heaters
        self.sources = []
        for source, ends in zip(self.network.sources, self.source_ends):
            i, j, ohms = self._place(ends)
            self.sources.append((i, j, 1 / (source.ohms + ohms), source.volts))
        self.given = []  # the last: what lies between the giver and its unknowns
        for giver, ends in zip(self.givers, self.giver_ends):
            i, j, ohms = self._place(ends)
            self.given.append((i, j, 1 / (giver.ohms + ohms), giver.volts, giver.amps, ohms))
        self.loads = []
        for load, ends in zip(self.drawing, self.load_ends):
            i, j, ohms = self._place(ends)
            self.loads.append((i, j, load.sort, load.value * scale, ohms))
        self.inputs = [self._place(ends) for ends in self.input_ends]

    def _find_patterns(self) -> None:
        straight = _pairs(self.fixed, self.sources, self.given)
        self.straight: Pattern = pattern(self.size, straight)
        self.pattern: Pattern = pattern(self.size, straight | _pairs(self.loads, self.inputs))

    def begin(self) -> State:
        holding = [HOLDING] * len(self.network.chargers) + [OFF] * len(self.network.converters)
        inputs = len(self.inputs)
        return State([0.0] * (self.size + 1), [False] * len(self.loads), holding, [0.0] * inputs, [False] * inputs)

    def currents(self, state: State) -> tuple[list[tuple[int, int, float, float]], bool]:
        """Every element as (i, j, current from i to j, its slope), and whether all loads stand above zero volts."""
        v, upright = state.volts, True
        elements = [(i, j, g * (v[i] - v[j]), g) for i, j, g in self.fixed]
        elements += [(i, j, g * (v[i] - v[j] - volts), g) for i, j, g, volts in self.sources]
        for (i, j, g, volts, amps, _), giving in zip(self.given, state.giving):
            if giving == HOLDING:
                elements.append((i, j, g * (v[i] - v[j] - volts), g))
            elif giving == LIMITED:
                elements.append((i, j, -amps, 0.0))
        asked = [part for part, live in zip(self.loads, state.live) if live]
        asked += [(i, j, "power", watts, ohms) for (i, j, ohms), watts in zip(self.inputs, state.input) if watts]
        for i, j, sort, value, ohms in asked:
            if sort == "current":
                elements.append((i, j, value, 0.0))
                continue
            across = left_over(v[i] - v[j], value, ohms)
            if across > 0:
                elements.append((i, j, value / across, value / (value * ohms - across**2)))
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
        stale, size, volts = factor is None, math.inf, state.volts
        for _ in range(STEPS):
            elements, upright = self.currents(state)
            if not upright:
                raise NoSolution
            if stale:
                factor = self._factor_of(elements, bent)
                self.factor, self.factored = factor, state.giving
            step = factor.solve(self._unbalanced(elements))
            if factor.unheld and factor.unheld > 1e-6 * max(abs(amps) for _, _, amps, _ in elements):
                raise NoSolution
            for place, change in enumerate(step):
                volts[place] += change
            last, size = size, max(map(abs, step), default=0.0)
            span = max(map(abs, volts))
            if not bent or size <= CLOSE * span or (size <= 1e-9 * span and size >= last / 2):
                return
            stale = size > NEAR * min(last, span)
        raise NoSolution

    def _factor_of(self, elements, bent: bool) -> Factor:
        """The matrix of the elements' slopes, factored. Raises NoSolution."""
        stamps = ((i, j, slope) if i >= 0 else (j, -1, slope) for i, j, _, slope in elements if i != j)
        try:
            return (self.pattern if bent else self.straight).factor(stamps)
        except NotPositive as error:
            raise NoSolution from error

    def _unbalanced(self, elements) -> list[float]:
        """What flows into each unknown more than out of it [A]; what the references take comes last."""
        right = [0.0] * (self.size + 1)
        for i, j, amps, _ in elements:
            right[i] -= amps
            right[j] += amps
        return right


def left_over(volts: float, watts: float, ohms: float) -> float:
    """Voltage [V] across what draws `watts` behind `ohms`, the higher of the two that there are; 0 where there is none:
    u = volts - ohms watts / u."""
    if not ohms:
        return volts
    rest = volts * volts - 4 * ohms * watts
    return (volts + math.sqrt(rest)) / 2 if rest > 0 and volts > 0 else 0.0


def _pairs(*elements) -> frozenset[tuple[int, int]]:
    return frozenset((i, j) for parts in elements for i, j, *_ in parts if i >= 0 and j >= 0)
