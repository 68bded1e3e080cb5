"""What flows in the worst state: through every conductor, device and rated part."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from diagrammer.circuit.flow import Operation
from diagrammer.circuit.sides import Side, Sides
from diagrammer.circuit.study import Study
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor

SAME = 1e-6  # relative: two currents are the same
LANDINGS = ("bar", "panel", "ac panel", "joint")
SUN = "in the brightest sun"  # 1.25 times the rated short-circuit current: NEC 690.8(A)(1)


@frozen(slots=True)
class Current:
    """The largest current [A] and when it flows."""

    amps: float
    when: str = ""


NONE = Current(0.0)


def when(operation: Operation) -> str:
    """A state in words: "parked, nothing charges, the banks low"."""
    name = operation.state.name
    return name if operation.charge == "nominal" else f"{name}, the banks {operation.charge}"


class Loading:
    """The largest currents of one view. Starting currents are not counted."""

    def __init__(self, view: View, study: Study, sides: Sides):
        self.view, self.study, self.sides = view, study, sides

    def conductor(self, one: Conductor) -> Current:
        """Of a conductor, its parallel ones together."""
        found = self._named.get(one.id, NONE)
        sun = self._raw.get(one.cable, NONE) if not one.core or one.core.startswith("L") else NONE
        return max(found, sun, key=lambda current: current.amps)

    def inside(self, key: str) -> Current:
        """Through an inside edge of the graph: a device, switch or shunt."""
        return max(self._named.get(key, NONE), self._raw.get(key, NONE), key=lambda current: current.amps)

    def usual(self, key: str) -> Current:
        """Through a conductor (by its id) or inside edge, or into a terminal of a bar, panel or joint, with the banks
        at their nominal voltage."""
        return self._nominal.get(key) or self._into_nominal.get(key, NONE)

    def into(self, terminal: str) -> Current:
        """What comes into a terminal of a bar, panel or joint from all sides, and leaves it again."""
        return self._into.get(terminal, NONE)

    @cached_property
    def _named(self) -> dict[str, Current]:
        """By the name of a branch in the network: conductors, joints, inside edges."""
        return _largest(self.study.solved)

    @cached_property
    def _nominal(self) -> dict[str, Current]:
        return _largest(one for one in self.study.nominal if one.flow)

    @cached_property
    def _into(self) -> dict[str, Current]:
        return self._landed(self.study.solved)

    @cached_property
    def _into_nominal(self) -> dict[str, Current]:
        return self._landed(one for one in self.study.nominal if one.flow)

    def _landed(self, operations: Iterable[Operation]) -> dict[str, Current]:
        """What comes in by conductors, joints and inside edges, at the terminals of rated parts on which many land."""
        found: dict[str, Current] = {}
        landings = self._landings
        for operation in operations:
            sums: dict[str, float] = {}
            for branch in operation.network.branches:
                if branch.a in landings or branch.b in landings:
                    half = abs(operation.flow.amps[branch.name]) / 2  # as much leaves as comes in
                    for end in (branch.a, branch.b):
                        sums[end] = sums.get(end, 0.0) + half
            for terminal, amps in sums.items():
                if terminal in landings and amps > found.get(terminal, NONE).amps * (1 + SAME):
                    found[terminal] = Current(amps, when(operation))
        return found

    @cached_property
    def _landings(self) -> frozenset[str]:
        nodes = self.view.system.nodes
        return frozenset(one.id for one in self.view.system.terminals.values() if nodes[one.node].kind.name in LANDINGS)

    @cached_property
    def _raw(self) -> dict[str, Current]:
        """By cable or edge key: what pv, wind and hydro drive towards what takes it."""
        found: dict[str, Current] = {}
        for key, data in self.view.edges.items():
            amps = _towards(*self.sides.of(key))
            name = data["value"].cable if data["form"] == "conductor" else key
            found[name] = max(found.get(name, NONE), Current(amps, SUN), key=lambda current: current.amps)
        return found


def _largest(operations: Iterable[Operation]) -> dict[str, Current]:
    worst: dict[str, Current] = {}
    for operation in operations:
        words = when(operation)
        for name, amps in operation.flow.amps.items():
            amps = abs(amps)
            if name not in worst or amps > worst[name].amps * (1 + SAME):
                worst[name] = Current(amps, words)
    return worst


def _raw(side: Side) -> float:
    """[A] that only pv, wind and hydro drive out of a side: where a bank stands, the flow says it."""
    return 0.0 if side.unlimited else side.raw


def _towards(a: Side, b: Side) -> float:
    """[A] that flows from where nothing takes it to where something does."""
    return max(map(_raw, [side for side in (a, b) if not side.takers] or (a, b)))
