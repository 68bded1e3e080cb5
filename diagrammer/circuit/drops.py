"""Voltage drops from the bank, converter or ac source to what draws, there and back, as the practice computes them.

Currents are those of the power flow with the banks at their nominal voltage; resistances are the practice's own, so the
drop is what its tables and formulas would give for these currents.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from diagrammer.circuit.faults import way_back
from diagrammer.circuit.flow import Operation, windings
from diagrammer.circuit.loading import SAME, when
from diagrammer.circuit.study import Study
from diagrammer.circuit.view import View
from diagrammer.circuit.voltages import Voltages
from diagrammer.electrics import drop
from diagrammer.netlist.model import Conductor, Node, System

LEAST = 1e-6  # [V] below it nothing is lost
DRAWING = {"converter": "in", "dc charger": "in", "inverter": "", "inverter charger": "", "drive": ""}
# dc ports, beside those of loads and panels, to which a drop counts


@dataclass(frozen=True)
class Drop:
    """One consumer: volts [V] lost there and back of `base` [V], `share` the largest part of it allowed. lost: by
    conductor, those of the way there first; length [m] there and back; when: the state it happens in."""

    node: str
    volts: float
    base: float
    share: float
    length: float
    lost: tuple[tuple[Conductor, float], ...]
    when: str

    @property
    def over(self) -> float:
        """[V] above what is allowed."""
        return self.volts - self.share * self.base

    @property
    def ac(self) -> bool:
        return any(wire.core for wire, _ in self.lost)

    @property
    def lines(self) -> dict[str, float]:
        """[V] lost by circuit."""
        found: dict[str, float] = {}
        for wire, volts in self.lost:
            found[wire.circuit] = found.get(wire.circuit, 0.0) + volts
        return found


@dataclass(frozen=True)
class Poles:
    """The poles of a source, between which a drop counts."""

    plus: str
    minus: str


@dataclass
class Reach:
    """From some poles outwards: volts [V] lost on the way, by terminal; the branch and terminal it came by; of which source."""

    volts: dict[str, float] = field(default_factory=dict)
    came: dict[str, tuple[Conductor | None, str, float]] = field(default_factory=dict)
    source: dict[str, int] = field(default_factory=dict)

    def way(self, terminal: str) -> Iterator[tuple[Conductor, float]]:
        """The conductors from the pole to a terminal, each with what it loses."""
        found = []
        while terminal in self.came:
            wire, nearer, volts = self.came[terminal]
            if wire is not None:
                found.append((wire, volts))
            terminal = nearer
        yield from reversed(found)

    def passes(self, terminal: str, over: str) -> bool:
        while terminal in self.came and terminal != over:
            terminal = self.came[terminal][1]
        return terminal == over


def length_of(system: System, wire: Conductor) -> float:
    """[m] of a conductor; of a run whose division is not said, an even share."""
    if wire.length is not None:
        return wire.length
    run = system.runs.get(wire.run)
    return run.length / len(run.members) if run else 0.0


class Drops:
    """The drops of one view."""

    def __init__(self, view: View, study: Study, voltages: Voltages):
        self.view, self.study, self.voltages = view, study, voltages
        self.system = view.system

    @cached_property
    def all(self) -> dict[str, Drop]:
        """The largest drop of every load, panel and converter input, in file order of the nodes. On dc where nothing
        charges, but for what runs only then."""
        solved = [operation for operation in self.study.nominal if operation.flow]
        idle = self._worst(operation for operation in solved if not operation.state.running)
        worst = self._worst(solved)
        worst |= {name: one for name, one in idle.items() if not one.ac and one.volts > LEAST}
        return {name: worst[name] for name in self.system.nodes if name in worst}

    def _worst(self, operations: Iterable[Operation]) -> dict[str, Drop]:
        worst: dict[str, Drop] = {}
        for operation in operations:
            for one in _Operated(self, operation).drops():
                if one.node not in worst or one.volts > worst[one.node].volts * (1 + SAME):
                    worst[one.node] = one
        return worst

    @cached_property
    def wires(self) -> dict[str, Conductor]:
        return {wire.id: wire for wire in self.system.conductors}

    def lost(self, wire: Conductor, amps: float) -> float:
        """[V] over one conductor at `amps` [A], by the formula of the practice; 0 where its size is not known."""
        if wire.wire.size is None or not amps:
            return 0.0
        return drop.drop(wire.wire.size, amps, length_of(self.system, wire), self.system.practice, ac=bool(wire.core),
                         parallel=wire.wire.parallel)

    def consumers(self) -> Iterator[tuple[Node, str, str, float, bool]]:
        """(node, plus, minus, base [V], critical) of everything to which a drop counts."""
        for node in self.system.nodes.values():
            kind, name = node.kind.name, node.name
            if kind == "load":
                volts = node["voltage"]
                base = volts if not isinstance(volts, tuple) else self.voltages.nominal(f"{name}.+")
                yield node, f"{name}.+", f"{name}.-", base, bool(node.get("critical"))
            elif kind == "ac load":
                for _, plus, minus, volts in windings(node, node.ports[0]):
                    yield node, plus, minus, volts, node.get("duty") == "light"
            elif kind == "panel":
                yield node, f"{name}.+", way_back(self.system, node, f"{name}.+"), self.voltages.nominal(f"{name}.+"), True
            elif kind in DRAWING:
                at = ".".join(filter(None, (name, DRAWING[kind])))
                yield node, f"{at}.+", f"{at}.-", self.voltages.nominal(f"{at}.+"), False

    def sources(self, operation: Operation) -> tuple[Poles, ...]:
        """The sources of a state: each battery or stack, each ac source, and each converter whose output no battery holds."""
        nets = self.view.nets
        tops = {nets[one.plus]: one for one in operation.network.sources if one.plus == f"{one.name}.+"}
        found = []
        for source in operation.network.sources:
            low, met = source, {source.name}
            while (below := tops.get(nets[low.minus])) is not None and below.name not in met:
                low = below
                met.add(below.name)
            found.append(Poles(source.plus, low.minus))
        found += [Poles(one.plus, one.minus) for one in operation.network.converters if nets[one.plus] not in tops]
        return tuple(found)


class _Operated:
    """The drops in one solved state."""

    def __init__(self, drops: Drops, operation: Operation):
        self.drops_, self.operation = drops, operation
        self.near: dict[str, list[tuple[str, Conductor | None, float]]] = {}
        for branch in operation.network.branches:
            wire = drops.wires.get(branch.name)
            volts = drops.lost(wire, operation.flow.amps.get(branch.name, 0.0)) if wire else 0.0
            self.near.setdefault(branch.a, []).append((branch.b, wire, volts))
            self.near.setdefault(branch.b, []).append((branch.a, wire, -volts))

    def drops(self) -> Iterator[Drop]:
        sources = self.drops_.sources(self.operation)
        there = self._reach([(poles.plus, number) for number, poles in enumerate(sources)])
        back: dict[int, Reach] = {}
        for node, plus, minus, base, critical in self.drops_.consumers():
            number = there.source.get(plus)
            if number is None or not base:
                continue
            if number not in back:
                back[number] = self._reach([(sources[number].minus, number)])
            if minus in back[number].volts:
                yield self._drop(node, there, back[number], plus, minus, base, critical)

    def _drop(self, node: Node, there: Reach, back: Reach, plus: str, minus: str, base: float, critical: bool) -> Drop:
        lost = (*there.way(plus), *((wire, -volts) for wire, volts in back.way(minus)))
        ac = any(wire.core for wire, _ in lost)
        system = self.drops_.system
        return Drop(node.name, there.volts[plus] - back.volts[minus], base, drop.limit(system.practice, critical, ac=ac),
                    sum(length_of(system, wire) for wire, _ in lost), lost, when(self.operation))

    def _reach(self, starts: list[tuple[str, int]]) -> Reach:
        found = Reach({terminal: 0.0 for terminal, _ in starts}, {}, dict(reversed(starts)))
        queue = deque(found.volts)
        while queue:
            here = queue.popleft()
            for other, wire, volts in self.near.get(here, ()):
                if other not in found.volts:
                    found.volts[other] = found.volts[here] + volts
                    found.came[other] = (wire, here, volts)
                    found.source[other] = found.source[here]
                    queue.append(other)
        return found
