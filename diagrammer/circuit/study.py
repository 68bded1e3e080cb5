"""What is computed of a system once and asked by many: its states solved, its short circuits, its limits."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

from diagrammer.circuit.faults import Faults
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from diagrammer.electrics.network import Collapse
from diagrammer.netlist.model import Conductor, System


@dataclass(frozen=True, eq=False)
class Study:
    """One system, computed."""

    system: System

    @cached_property
    def states(self) -> tuple[State, ...]:
        return states(self.system)

    @cached_property
    def low(self) -> tuple[Operation, ...]:
        """Each state with the banks at their lowest: the largest currents of what draws constant power."""
        return tuple(Operation(self.system, state, "low") for state in self.states)

    @cached_property
    def nominal(self) -> tuple[Operation, ...]:
        return tuple(Operation(self.system, state, "nominal") for state in self.states)

    @property
    def solved(self) -> tuple[Operation, ...]:
        """Low and nominal, those that have a solution."""
        return tuple(one for one in (*self.low, *self.nominal) if one.flow)

    @property
    def collapses(self) -> tuple[tuple[Operation, Collapse], ...]:
        """The states that have none at nominal voltage, and why."""
        return tuple((one, one.result) for one in self.nominal if isinstance(one.result, Collapse))

    @cached_property
    def worst(self) -> dict[str, tuple[float, Operation]]:
        """By conductor id: the largest current [A] of all states, and where it is."""
        found: dict[str, tuple[float, Operation]] = {}
        for operation in self.solved:
            for one in self.system.conductors:
                amps = abs(operation.amps(one))
                if one.id not in found or amps > found[one.id][0]:
                    found[one.id] = (amps, operation)
        return found

    def amps(self, one: Conductor) -> float:
        """Largest current [A] of a conductor in any state, its parallels together."""
        return self.worst[one.id][0] if one.id in self.worst else 0.0

    @cached_property
    def faults(self) -> Faults:
        return Faults(self.system)


@lru_cache(maxsize=8)
def study(system: System) -> Study:
    """The study of a system, made once."""
    return Study(system)
