"""Voltage drops from the bank, converter or ac source to what draws, there and back, as the practice computes them.

Currents are those of the power flow with the banks at their nominal voltage; resistances are the practice's own, so the
drop is what its tables and formulas would give for these currents.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import cached_property
from math import copysign

from diagrammer.circuit.batteries import batteries, charge_voltage
from diagrammer.circuit.converters import EFFICIENCY, efficiency
from diagrammer.circuit.demand import demand
from diagrammer.circuit.faults import way_back
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.loading import SAME, when
from diagrammer.circuit.reach import length_of
from diagrammer.circuit.states import State
from diagrammer.circuit.study import Study
from diagrammer.circuit.view import View
from diagrammer.circuit.voltages import Voltages
from diagrammer.circuit.ways import Poles, Ways
from diagrammer.circuit.windings import windings
from diagrammer.electrics import drop
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Node

LEAST = 1e-6  # [V] below it nothing is lost
DRAWING = {"converter": "in", "dc charger": "in", "inverter": "", "inverter charger": "", "drive": ""}
# dc ports, beside those of loads and panels, to which a drop counts


@frozen
class Drop:
    """One consumer: volts [V] lost there and back of `base` [V], `share` the largest part of it allowed. lost: by
    conductor, those of the way there first; length [m] there and back; when: the state it happens in; least: it would
    be no less, but no state in which that much flows has a solution."""

    node: str
    volts: float
    base: float
    share: float
    length: float
    lost: tuple[tuple[Conductor, float], ...]
    when: str
    least: bool = False

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
        off = frozenset(self.system.nodes).intersection(*(one.state.off for one, _ in solved)) | self.study.momentary
        stuck = [one.every for one in self.study.nominal if not one.every.flow]
        for one in _worst(tuple(_Operated(self, one).alone()) for one in stuck).values():
            drawing, known = self.system.nodes[one.node].kind.name in DRAWING, worst.get(one.node)
            if known is None or one.node in off or drawing and one.volts > known.volts:
                worst[one.node] = one
        return {name: worst[name] for name in self.system.nodes if name in worst}

    def _runs(self, node: str, state: State) -> bool:
        """Whether something draws while nothing charges; what else is lost on its way is others' current."""
        return node not in state.off and self.system.nodes[node].kind.name != "dc charger"

    @cached_property
    def _raised(self) -> dict[str, float]:
        found: dict[str, float] = {}
        for one in self.all.values():
            if one.over > 0:
                share = one.volts / one.base
                found |= {line: max(share, found.get(line, share)) for line in one.lines}
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

    def own(self, one: Drop, operation: Operation) -> float:
        """[A] that a load, charger or drive draws at its nominal voltage, a converter or inverter for the loads behind it
        that are on together, at most for its power; 0 of what is off and of anything else."""
        node = self.system.nodes[one.node]
        kind = node.kind.name
        if node.name in operation.state.off:
            return 0.0
        if "load" in kind:
            return (node["power"] / one.base if node.get("power") else node["current"]) * node["count"]
        if kind == "drive":
            return node["power"] / EFFICIENCY / one.base
        if kind not in DRAWING or not any(each.from_plus == _entry(node) for each in operation.network.converters):
            return 0.0
        if kind == "dc charger":
            return node["output"] * charge_voltage(self.system, f"{node.name}.+") / EFFICIENCY / one.base
        return self._through(node, operation) / efficiency(node) / one.base

    def _through(self, maker: Node, operation: Operation) -> float:
        """Power [W] that a converter or inverter gives to the loads that are on."""
        asked = demand(self.view)
        parts = asked.behind(asked.outputs(maker), asked.making(maker))
        taken = {part.load.name: part.watts * part.factor for part in parts if part.load.name not in operation.state.off}
        short = [watts for name, watts in taken.items() if name in self.study.momentary]
        watts = sum(taken.values()) - sum(short) + max(short, default=0.0)
        return min(watts, maker["power"]) if "power" in maker.values else watts

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
            plus = _entry(node)
            yield Consumer(name, plus, f"{plus[:-1]}-", self.voltages.nominal(plus), False)

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
            other = next((one.minus for one in operation.network.sources if one.plus == source.minus), "")
            found.append(Poles(source.plus, low.minus, other))
        found += [Poles(one.plus, one.minus) for one in operation.network.converters if nets[one.plus] not in tops]
        return tuple(found)


def _entry(node: Node) -> str:
    """The + by which a converter, charger, inverter or drive draws."""
    return ".".join(filter(None, (node.name, DRAWING[node.kind.name], "+")))


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
        self.ways = Ways(operation, drops.wires, drops.ohms, drops.sources(operation))

    def alone(self) -> Iterator[Drop]:
        """Where nothing can flow as it should: what each consumer would lose at least, were the currents those at nominal
        voltage; of loads for moments its own beside what runs for longer."""
        found = tuple(self.drops())
        own = {one.node: self._drops.own(one, self.operation) for one in found}
        together: dict[str, float] = defaultdict(float)  # [A] by conductor, from its a to its b
        for one in found:
            for wire, volts in one.lost if one.node not in self._drops.study.momentary else ():
                together[wire.id] += copysign(own[one.node], volts)
        for one in found:
            more = own[one.node] if one.node in self._drops.study.momentary else 0.0
            lost = tuple((wire, volts * together[wire.id] + abs(volts) * more) for wire, volts in one.lost)
            yield replace(one, volts=sum(volts for _, volts in lost), lost=lost, least=True)

    def drops(self) -> Iterator[Drop]:
        for one in self._drops.consumers:
            if not one.base:
                continue
            lost = self.ways.lost(one.plus, one.minus)
            if lost is None:
                lost = self.ways.lost(one.minus, one.plus)  # L2 stands below its neutral
            if lost is not None:
                yield self._drop(one, lost)

    def _drop(self, one: Consumer, lost: tuple[tuple[Conductor, float], ...]) -> Drop:
        system, ac = self._drops.system, any(wire.core for wire, _ in lost)
        return Drop(
            one.node, sum(volts for _, volts in lost), one.base, drop.limit(system.practice, one.critical, ac=ac),
            sum(length_of(system, wire) for wire, _ in lost), lost, when(self.operation),
        )
