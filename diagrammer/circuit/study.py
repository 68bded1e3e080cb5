"""What is computed of a system once and asked by many: its states solved, its short circuits, its limits."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property, lru_cache

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.faults import Faults
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from diagrammer.electrics.network import Collapse, Flow, Network
from diagrammer.frozen import frozen
from diagrammer.netlist.model import System

MOMENTARY = 0.25  # [h a day] a load that runs no longer is not on together with others of its sort (common practice)


@frozen
class OneAtATime(Operation):
    """A state in which of the momentary loads (a windlass, a horn, a step) only the largest is on.

    In each conductor flows what flows without them, and of what they add together no more than
    the largest of them takes: their own conductors carry them in full.
    """

    momentary: frozenset[str] = frozenset()

    @cached_property
    def every(self) -> Operation:
        """The same with all of them on."""
        return Operation(self.system, self.state, self.charge, self.temperature, self.extra)

    @property
    def network(self) -> Network:
        return self.every.network

    @cached_property
    def result(self) -> Flow | Collapse:
        every = self.every
        resting = replace(every, state=replace(self.state, off=self.state.off | self.momentary))
        if not self.momentary or not resting.flow:
            return every.result
        if not every.flow:
            return resting.result
        return replace(every.flow, amps=_limited(resting.flow.amps, every.flow.amps, self._most(every)))

    def _most(self, every: Operation) -> float:
        """Current [A] of the largest momentary load at its own voltage, of an ac load at the lowest bank's if that makes
        it larger."""
        own = (abs(every.flow.amps[load.name]) for load in every.network.loads
               if load.name.partition(" ")[0] in self.momentary)
        lowest = min((one.window.cutoff for one in batteries(self.system).values()), default=0.0)
        nodes = (self.system.nodes[name] for name in self.momentary)
        watts = (node["power"] * node["count"] for node in nodes if node.kind.name == "ac load")
        return max((*own, *(one / lowest for one in watts if lowest)), default=0.0)


def _limited(resting: Mapping[str, float], all_on: Mapping[str, float], most: float) -> dict[str, float]:
    """What flows without the momentary loads, and of what they add `most` [A]."""
    found = {}
    for name, amps in all_on.items():
        before = resting.get(name, 0.0)
        added = amps - before
        found[name] = amps if abs(added) <= most else before + math.copysign(most, added)
    return found


@frozen(eq=False)
class Study:
    """One system, computed."""

    system: System

    @cached_property
    def states(self) -> tuple[State, ...]:
        return states(self.system)

    @cached_property
    def momentary(self) -> frozenset[str]:
        """Loads that run for moments only; none where the netlist names its states itself."""
        if self.system.states:
            return frozenset()
        hours = {node.name: node.get("hours") for node in self.system.nodes.values()}
        return frozenset(name for name, each in hours.items() if each is not None and each <= MOMENTARY)

    def _at(self, charge: str) -> tuple[Operation, ...]:
        return tuple(OneAtATime(self.system, state, charge, momentary=self.momentary) for state in self.states)

    @cached_property
    def low(self) -> tuple[Operation, ...]:
        """Each state with the banks at their lowest: the largest currents of what draws constant power."""
        return self._at("low")

    @cached_property
    def nominal(self) -> tuple[Operation, ...]:
        return self._at("nominal")

    @property
    def solved(self) -> tuple[Operation, ...]:
        """Low and nominal, those that have a solution."""
        return tuple(one for one in (*self.low, *self.nominal) if one.flow)

    @cached_property
    def faults(self) -> Faults:
        return Faults(self.system)


@lru_cache(maxsize=1)
def study(system: System) -> Study:
    """The study of a system, made once."""
    return Study(system)
