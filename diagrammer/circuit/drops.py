"""Voltage drops from the bank, converter or ac source to what draws, there and back, as the practice computes them.

Currents are those of the power flow with the banks at their nominal voltage; resistances are the practice's own, so the
drop is what its tables and formulas would give for these currents.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import field, replace
from functools import cached_property

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.faults import way_back
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.loading import SAME, when
from diagrammer.circuit.reach import length_of
from diagrammer.circuit.states import State
from diagrammer.circuit.study import Study
from diagrammer.circuit.view import View
from diagrammer.circuit.voltages import Voltages
from diagrammer.circuit.windings import windings
from diagrammer.electrics import drop
from diagrammer.frozen import changing, frozen
from diagrammer.netlist.model import Conductor, Node

LEAST = 1e-6  # [V] below it nothing is lost
DRAWING = {"converter": "in", "dc charger": "in", "inverter": "", "inverter charger": "", "drive": ""}
# dc ports, beside those of loads and panels, to which a drop counts


@frozen
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


@frozen
class Consumer:
    """What draws between two terminals at a nominal voltage of `base` [V]."""

    node: str
    plus: str
    minus: str
    base: float
    critical: bool


@frozen
class Poles:
    """The poles of a source, between which a drop counts."""

    plus: str
    minus: str


@changing
class Forest:
    """Shortest ways from some poles, by terminal: volts [V] lost from the pole to there, what it came by (conductor,
    nearer terminal, volts), and from which source."""

    volts: dict[str, float]
    source: dict[str, int]
    came: dict[str, tuple[Conductor | None, str, float]] = field(default_factory=dict)

    def way(self, terminal: str) -> list[tuple[str, Conductor | None, float]]:
        """(terminal, what it came by, volts) from the pole outwards."""
        found = []
        while terminal in self.came:
            wire, nearer, volts = self.came[terminal]
            found.append((terminal, wire, volts))
            terminal = nearer
        return found[::-1]

    def between(self, start: str, end: str) -> list[tuple[Conductor, float]]:
        """The conductors from one terminal to another of the same tree, each with what it loses that way."""
        here, there = self.way(start), self.way(end)
        shared = sum(1 for a, b in zip(here, there, strict=False) if a == b)
        back = [(wire, -volts) for _, wire, volts in reversed(here[shared:])]
        return [one for one in (*back, *((wire, volts) for _, wire, volts in there[shared:])) if one[0] is not None]


class Drops:
    """The drops of one view."""

    def __init__(self, view: View, study: Study, voltages: Voltages):
        self.view, self.study, self.voltages = view, study, voltages
        self.system = view.system

    @cached_property
    def all(self) -> dict[str, Drop]:
        """The largest drop of every load, panel and converter input, in file order of the nodes. On dc where nothing
        charges, but for what runs only then."""
        solved = [(one, tuple(_Operated(self, one).drops())) for one in self.study.nominal if one.flow]
        idle = _worst(tuple(drop for drop in drops if self._runs(drop.node, operation.state))
                      for operation, drops in solved if not operation.state.running)
        worst = _worst(drops for _, drops in solved)
        worst |= {name: one for name, one in idle.items() if not one.ac and one.volts > LEAST}
        stuck = [one.every for one in self.study.nominal if not one.every.flow]
        alone = _worst(tuple(_Operated(self, one).alone()) for one in stuck)
        worst |= {name: one for name, one in alone.items() if not solved or name in self.study.momentary}
        return {name: worst[name] for name in self.system.nodes if name in worst}

    def _runs(self, node: str, state: State) -> bool:
        """Whether something draws while nothing charges; what else is lost on its way is others' current."""
        return node not in state.off and self.system.nodes[node].kind.name != "dc charger"

    @cached_property
    def _raised(self) -> dict[str, float]:
        found: dict[str, float] = {}
        for one in self.all.values():
            if one.over > 0:
                for line in one.lines:
                    found[line] = max(found.get(line, 0.0), one.volts / one.base)
        return found

    def explain(self, circuits: Iterable[str], amps: float, most: float) -> bool:
        """Whether a current in these circuits, `amps` [A] with the banks at their nominal voltage, is above `most` only
        since more voltage is lost than allowed: what draws constant power draws more from a lower voltage."""
        share = max((self._raised.get(circuit, 0.0) for circuit in circuits), default=0.0)
        windows = (one.window for one in batteries(self.system).values())
        low = max((window.nominal / window.cutoff for window in windows), default=1.0)
        return share > 0 and amps * (1 - share) * low <= most

    @cached_property
    def wires(self) -> dict[str, Conductor]:
        return {wire.id: wire for wire in self.system.conductors}

    @cached_property
    def ohms(self) -> dict[str, float]:
        """[V] that a conductor loses for each ampere by the formula of the practice, by its id; 0 where its size is not
        known."""
        return {wire.id: self._ohms(wire) for wire in self.system.conductors}

    def _ohms(self, wire: Conductor) -> float:
        if wire.wire.size is None:
            return 0.0
        return drop.drop(wire.wire.size, 1.0, length_of(self.system, wire), self.system.practice, ac=bool(wire.core),
                         parallel=wire.wire.parallel, material=wire.wire.material)

    def own(self, one: Drop) -> float:
        """[A] that a load draws at its nominal voltage; 0 of anything else."""
        node = self.system.nodes[one.node]
        if "load" not in node.kind.name:
            return 0.0
        amps = node["power"] / one.base if node.get("power") else node["current"]
        return amps * node["count"]

    @cached_property
    def consumers(self) -> tuple[Consumer, ...]:
        """Everything to which a drop counts."""
        return tuple(one for node in self.system.nodes.values() for one in self._consumers(node))

    def _consumers(self, node: Node) -> Iterator[Consumer]:
        kind, name = node.kind.name, node.name
        if kind == "load":
            volts = node["voltage"]
            base = volts if not isinstance(volts, tuple) else self.voltages.nominal(f"{name}.+")
            yield Consumer(name, node.terminal("+"), node.terminal("-"), base, bool(node.get("critical")))
        elif kind == "ac load":
            for _, plus, minus, volts in windings(node, node.ports[0]):
                yield Consumer(name, plus, minus, volts, node.get("duty") == "light")
        elif kind == "panel":
            plus = f"{name}.+"
            yield Consumer(name, plus, way_back(self.system, node, plus), self.voltages.nominal(plus), True)
        elif kind in DRAWING:
            at = ".".join(filter(None, (name, DRAWING[kind])))
            yield Consumer(name, f"{at}.+", f"{at}.-", self.voltages.nominal(f"{at}.+"), False)

    def sources(self, operation: Operation) -> tuple[Poles, ...]:
        """The sources of a state: each battery or stack, ac source, and converter whose output no battery holds."""
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


def _worst(found: Iterable[tuple[Drop, ...]]) -> dict[str, Drop]:
    """The largest of each consumer."""
    worst: dict[str, Drop] = {}
    for one in (one for drops in found for one in drops):
        if one.node not in worst or one.volts > worst[one.node].volts * (1 + SAME):
            worst[one.node] = one
    return worst


class _Operated:
    """The drops in one solved state."""

    def __init__(self, drops: Drops, operation: Operation):
        self._drops, self.operation = drops, operation
        self.near: dict[str, list[tuple[str, Conductor | None, float]]] = {}
        for branch in operation.network.branches:
            wire = drops.wires.get(branch.name)
            volts = drops.ohms[branch.name] * self._amps(branch.name) if wire else 0.0
            self.near.setdefault(branch.a, []).append((branch.b, wire, volts))
            self.near.setdefault(branch.b, []).append((branch.a, wire, -volts))

    def _amps(self, name: str) -> float:
        return self.operation.flow.amps.get(name, 0.0) if self.operation.flow else 1.0

    def alone(self) -> Iterator[Drop]:
        """Where nothing can flow as it should: what each consumer would lose with its own current [A] at its nominal
        voltage alone, at least."""
        for one in self.drops():
            amps = self._drops.own(one)
            lost = tuple((wire, abs(volts) * amps) for wire, volts in one.lost)
            yield replace(one, volts=sum(volts for _, volts in lost), lost=lost)

    def drops(self) -> Iterator[Drop]:
        sources = self._drops.sources(self.operation)
        there = self._grow(self._each(poles.plus for poles in sources))
        back = self._ways_back([poles.minus for poles in sources])
        for consumer in self._drops.consumers:
            for turned in (False, True):  # L2 stands below its neutral
                one = replace(consumer, plus=consumer.minus, minus=consumer.plus) if turned else consumer
                source = there.source.get(one.plus)
                minus = sources[source].minus if source is not None and one.base else ""
                if one.minus in back.source and back.source[one.minus] == back.source.get(minus):
                    yield self._drop(one, there, back, minus)
                    break

    @staticmethod
    def _each(poles: Iterable[str]) -> dict[str, int]:
        """The number of the first source at each pole."""
        found: dict[str, int] = {}
        for number, pole in enumerate(poles):
            found.setdefault(pole, number)
        return found

    def _ways_back(self, poles: list[str]) -> Forest:
        """One tree for all that hangs together: from the first source's pole, the others somewhere in it."""
        found = Forest({}, {})
        for number, pole in enumerate(poles):
            if pole not in found.volts:
                self._grow({pole: number}, found)
        return found

    def _drop(self, one: Consumer, there: Forest, back: Forest, minus: str) -> Drop:
        lost = [(wire, volts) for _, wire, volts in there.way(one.plus) if wire is not None]
        lost += [(wire, -volts) for wire, volts in back.between(minus, one.minus)]
        system, ac = self._drops.system, any(wire.core for wire, _ in lost)
        return Drop(
            one.node, sum(volts for _, volts in lost), one.base, drop.limit(system.practice, one.critical, ac=ac),
            sum(length_of(system, wire) for wire, _ in lost), tuple(lost), when(self.operation),
        )

    def _grow(self, starts: dict[str, int], found: Forest | None = None) -> Forest:
        """Breadth first from the poles, to what is not reached yet."""
        found = found or Forest({}, {})
        found.volts.update(dict.fromkeys(starts, 0.0))
        found.source.update(starts)
        queue = deque(starts)
        while queue:
            here = queue.popleft()
            lost, source = found.volts[here], found.source[here]
            for other, wire, volts in self.near.get(here, ()):
                if other not in found.volts:
                    found.volts[other], found.source[other] = lost + volts, source
                    found.came[other] = (wire, here, volts)
                    queue.append(other)
        return found
