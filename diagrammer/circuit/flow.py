"""Power flow: a system in an operating state as a resistive network, solved.

Both poles, dc and ac, are one network; converters and inverters couple its islands. An ac line
stands over its neutral like a dc pole (line and line in opposition, three phases as three single
ones: their common neutral is then overstated). Earth conductors and bonds carry nothing.
"""

from __future__ import annotations

from functools import cached_property

from diagrammer.circuit.batteries import batteries, charge_voltage
from diagrammer.circuit.states import SKY, State
from diagrammer.electrics import conductor, solar
from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Branch, Charger, Collapse, Converter, Flow, Load, Network, Source
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Inside, Node, Port, System

HOT = 70.0  # [°C] of a loaded conductor
SHUNT_DROP = 0.05  # [V] a shunt loses at its rating (common practice)
GRID_OHMS, MACHINE_OHMS = 0.2, 0.005  # [Ω] of a public supply and of a converter's output (common practice)
EFFICIENCY = 0.9  # of a converter or inverter where its data sheet is not given (common practice)

TRANSFORMED = 0.95  # share of the power that an isolating transformer of this size passes on (common practice)


@frozen
class Operation:
    """A system in a state, its banks at `charge`: "low", "nominal" or "full", conductors at `temperature` [°C].

    extra: loads beside those of the system.
    """

    system: System
    state: State
    charge: str = "nominal"
    temperature: float = HOT
    extra: tuple[Load, ...] = ()

    @cached_property
    def network(self) -> Network:
        return Network(
            branches=tuple(self._branches()), sources=tuple(self._sources()), loads=(*self._loads(), *self.extra),
            chargers=tuple(self._chargers()), converters=tuple(self._converters()),
        )

    @cached_property
    def result(self) -> Flow | Collapse:
        return solve(self.network)

    @property
    def flow(self) -> Flow | None:
        return self.result if isinstance(self.result, Flow) else None

    def amps(self, one: Conductor) -> float:
        """Current of a conductor [A], the parallel ones together; 0 where nothing flows. Needs a Flow."""
        return self.flow.amps.get(one.id, 0.0)

    @cached_property
    def through(self) -> dict[str, float]:
        """Largest current [A] inside each node that passes current: fuses, switches, shunts. Needs a Flow."""
        found: dict[str, float] = {}
        for number, inside in enumerate(self.system.insides):
            amps = abs(self.flow.amps.get(f"inside {inside.node} {number}", 0.0))
            found[inside.node] = max(amps, found.get(inside.node, 0.0))
        return found

    def volts(self, plus: str, minus: str) -> float | None:
        """Voltage [V] between two terminals of one island; None where one is not alive. Needs a Flow."""
        values = self.flow.volts
        return values[plus] - values[minus] if plus in values and minus in values else None

    def _branches(self):
        for one in self.system.conductors:
            if one.side != "earth":
                yield Branch(one.id, one.a, one.b, self._ohms(one))
        for number, joint in enumerate(self.system.joints):
            if joint.side != "earth":
                yield Branch(f"joint {number}", joint.a, joint.b, 0.0)
        for number, inside in enumerate(self.system.insides):
            if self.closed(inside):
                yield Branch(f"inside {inside.node} {number}", inside.a, inside.b, self._ohms_inside(inside))

    def _ohms(self, one: Conductor) -> float:
        if one.wire.size is None:
            return 0.0
        length = one.length if one.length is not None else self._share(one)
        return conductor.resistance(one.wire.size, length, self.temperature, material=one.wire.material) / one.wire.parallel

    def _share(self, one: Conductor) -> float:
        """A conductor whose own length is not known takes an even share of its run."""
        run = self.system.runs.get(one.run)
        return run.length / len(run.members) if run else 0.0

    def closed(self, inside: Inside) -> bool:
        """Whether what is inside a node passes current in this state."""
        node = self.system.nodes[inside.node]
        if inside.form in ("bond", "capacitor") or inside.side == "earth":
            return False
        if inside.positions:
            return self.state.positions.get(node.name) in inside.positions
        if node.kind.name == "isolator":
            return any(self.system.nodes[name].kind.name not in SKY for name in self.state.running)
        if node.name in self.state.off:
            return False
        return not (node.kind.name == "switch" and node.get("open") and node.name not in self.state.positions)

    def _ohms_inside(self, inside: Inside) -> float:
        node = self.system.nodes[inside.node]
        if inside.form == "shunt":
            return SHUNT_DROP / node["rating"] if node.get("rating") else 0.0
        return node.get("resistance") or 0.0 if inside.form == "resistor" else 0.0

    def _sources(self):
        for node in self.system.nodes.values():
            if node.kind.name in ("bank", "battery"):
                volts, ohms = batteries(self.system)[node.name].at(self.charge)
                yield Source(node.name, f"{node.name}.+", f"{node.name}.-", volts, ohms)
            elif node.name in self.state.running and node.kind.name in ("shore", "generator"):
                yield from self._ac_sources(node)

    def _ac_sources(self, node: Node):
        for name, plus, minus, volts in windings(node, node.ports[0]):
            yield Source(f"{node.name} {name}", plus, minus, volts, GRID_OHMS)

    def _loads(self):
        for node in self.system.nodes.values():
            if node.name in self.state.off:
                continue
            if node.kind.name == "load":
                yield from self._dc_load(node)
            elif node.kind.name == "ac load":
                between = windings(node, node.ports[0])
                for name, plus, minus, _ in between:
                    yield Load(f"{node.name} {name}", plus, minus, "power", node["power"] * (node.get("count") or 1) / len(between))
            elif node.kind.name in ("inverter", "inverter charger") and self.charge == "low":
                yield from self._outlets(node)
            elif node.kind.name == "drive":
                yield Load(node.name, f"{node.name}.+", f"{node.name}.-", "power", node["power"] / EFFICIENCY)

    def _outlets(self, node: Node):
        """What outlets behind an inverter may take of its power beside the loads there, as seen on its dc side. Counted
        with the banks low only: the worst case, not the usual one."""
        if self.state.positions.get(node.name, "inverting") != "inverting":
            return
        lines = {terminal.id for terminal in self.system.terminals.values()
                 if terminal.node == node.name and terminal.port == "out" and terminal.pole.startswith("L")}
        names = {self.system.terminals[terminal].node for terminal in self.reach(lines)}
        behind = [self.system.nodes[name] for name in names - self.state.off]
        loads = sum(one["power"] * (one.get("count") or 1) for one in behind if one.kind.name == "ac load")
        if any(one.kind.name == "outlet" for one in behind) and node["power"] > loads:
            share = (node.get("efficiency") or 100 * EFFICIENCY) / 100
            watts = (node["power"] - loads) / share
            yield Load(f"{node.name} outlets", f"{node.name}.+", f"{node.name}.-", "power", watts)

    def _dc_load(self, node: Node):
        count, window = node.get("count") or 1, node.get("voltage")
        least = window[0] if isinstance(window, tuple) else 0.0
        sort, value = ("power", node["power"]) if node.get("power") is not None else ("current", node.get("current") or 0.0)
        if sort == "power" and node.get("duty") == "heat" and not isinstance(window, tuple) and value:
            sort, value = "resistance", window**2 / value / count / count  # a heater is a resistor
        if value:
            yield Load(node.name, f"{node.name}.+", f"{node.name}.-", sort, value * count, least)

    def _chargers(self):
        """What charges from outside the network: alternators, sun, wind, water."""
        for node in self.system.nodes.values():
            if node.kind.name == "alternator" and node.name in self.state.running:
                amps = node.get("continuous") or node["output"]
                volts = node.get("voltage") or charge_voltage(self.system, f"{node.name}.+")
                if volts:
                    yield Charger(node.name, f"{node.name}.+", f"{node.name}.-", volts, amps, MACHINE_OHMS)
            elif node.kind.name in ("solar charger", "wind charger", "dc charger"):
                yield from self._from_sky(node)

    def _from_sky(self, node: Node):
        port = "in" if node.kind.name == "wind charger" else "pv"
        volts = charge_voltage(self.system, f"{node.name}.+")
        arrays = self.arrays_of(node, port) if volts else ()
        amps = sum(self.array_amps(node, array, volts) for array in arrays)
        if amps > 0:
            yield Charger(node.name, f"{node.name}.+", f"{node.name}.-", volts, min(amps, node["output"]), MACHINE_OHMS)

    def arrays_of(self, charger: Node, port: str) -> tuple[Node, ...]:
        """The running pv, wind and hydro nodes that reach a charger's port."""
        starts = {f"{charger.name}.{port}.{pole}" for pole in ("+", "L", "L1")}
        reach = self.reach(starts)
        return tuple(
            self.system.nodes[name] for name in self.system.nodes
            if name in self.state.running and self.system.nodes[name].kind.name in SKY
            and any(f"{name}.{pole}" in reach for pole in ("+", "L1", "L"))
        )

    def reach(self, starts: set[str]) -> set[str]:
        """Terminals that feed and ac conductors join to `starts` in this state."""
        reach, edge = set(starts), list(starts)
        while edge:
            for other in self._feeds.get(edge.pop(), ()):
                if other not in reach:
                    reach.add(other)
                    edge.append(other)
        return reach

    @cached_property
    def _feeds(self) -> dict[str, list[str]]:
        """Terminals joined by feed and ac conductors, joints and closed devices."""
        joined: dict[str, list[str]] = {}
        inside = (one for one in self.system.insides if self.closed(one) and one.form != "common")
        for one in (*self.system.conductors, *self.system.joints, *inside):
            if one.side in ("feed", "ac"):
                joined.setdefault(one.a, []).append(one.b)
                joined.setdefault(one.b, []).append(one.a)
        return joined

    def array_amps(self, charger: Node, array: Node, volts: float) -> float:
        """Current [A] that one array, turbine or wheel gives through a charger at `volts` [V] of the bank."""
        if array.kind.name != "pv":
            return (array.get("power") or 0.0) / volts
        at = pv_array(array)
        if charger.get("type") == "pwm":
            return solar.pwm(at, volts, charger["output"]).amps
        return solar.mppt(at, volts, charger["output"]).amps

    def _converters(self):
        for node in self.system.nodes.values():
            if node.name in self.state.off:
                continue
            if node.kind.name in _MAKERS:
                yield from _MAKERS[node.kind.name](self, node)

    def _converter(self, node: Node):
        yield _dc(node, "in", node["voltage"], node["output"])

    def _dc_charger(self, node: Node):
        volts = charge_voltage(self.system, f"{node.name}.+")
        if volts and self.state.running and not self.arrays_of(node, "pv") and self._input_is_charged(node):
            yield _dc(node, "in", volts, node["output"])

    def _input_is_charged(self, node: Node) -> bool:
        """Whether a running source stands on the net of a dc charger's input, or none is wired to it at all."""
        reach = self.reach({f"{node.name}.in.+"})
        engines = [name for name, one in self.system.nodes.items() if one.kind.name == "alternator" and f"{name}.+" in reach]
        return not engines or any(name in self.state.running for name in engines)

    def _inverter_charger(self, node: Node):
        position = self.state.positions.get(node.name, "inverting")
        if position == "inverting":
            yield from self._inverting(node)
            return
        port = next(port for port in node.ports if port.name == ("in2" if position.endswith("2") else "in"))
        volts = charge_voltage(self.system, f"{node.name}.+")
        if volts and node["charge"]:
            yield from self._from_ac(node, port, volts, node["charge"])

    def _transformer(self, node: Node):
        """Winding by winding, as far as both sides have one."""
        sides = [windings(node, next(port for port in node.ports if port.name == name)) for name in ("in", "out")]
        for (name, a, b, _), (_, plus, minus, volts) in zip(*sides, strict=False):
            yield Converter(f"{node.name} {name}", a, b, plus, minus, volts, efficiency=TRANSFORMED, ohms=MACHINE_OHMS)

    def _ac_charger(self, node: Node):
        volts = charge_voltage(self.system, f"{node.name}.+")
        if volts:
            yield from self._from_ac(node, next(port for port in node.ports if port.name == "in"), volts, node["output"])

    def _inverting(self, node: Node):
        share = (node.get("efficiency") or 100 * EFFICIENCY) / 100
        window = node.get("input window")
        least = window[0] if isinstance(window, tuple) else 0.0
        out = next(port for port in node.ports if port.name == "out")
        for name, plus, minus, volts in windings(node, out):
            yield Converter(f"{node.name} {name}", f"{node.name}.+", f"{node.name}.-", plus, minus, volts,
                            efficiency=share, ohms=MACHINE_OHMS, least=least)

    def _from_ac(self, node: Node, port, volts: float, amps: float):
        _, plus, minus, _ = windings(node, port)[0]
        yield Converter(f"{node.name} charging", plus, minus, f"{node.name}.+", f"{node.name}.-", volts,
                        efficiency=EFFICIENCY, amps=amps, ohms=MACHINE_OHMS)


_MAKERS = {
    "converter": Operation._converter, "dc charger": Operation._dc_charger, "inverter": Operation._inverting,
    "inverter charger": Operation._inverter_charger, "ac charger": Operation._ac_charger,
    "transformer": Operation._transformer,
}


def _dc(node: Node, port: str, volts: float, amps: float) -> Converter:
    window = node.get("input voltage")
    return Converter(
        node.name, f"{node.name}.{port}.+", f"{node.name}.{port}.-", f"{node.name}.+", f"{node.name}.-", volts,
        efficiency=(node.get("efficiency") or 100 * EFFICIENCY) / 100, amps=amps, ohms=MACHINE_OHMS,
        least=window[0] if isinstance(window, tuple) else 0.0,
    )


def windings(node: Node, port: Port) -> list[tuple[str, str, str, float]]:
    """(name, plus, minus, volts): what an ac port stands between, as single-phase windings."""
    prefix = node.name if port.name == "main" else f"{node.name}.{port.name}"
    lines, volts = port.lines, node.values.mains
    if not port.neutral:
        return [(f"{a}-{b}", f"{prefix}.{a}", f"{prefix}.{b}", volts) for a, b in zip(lines, lines[1:], strict=False)]
    if len(lines) == 2:
        return [("L1", f"{prefix}.L1", f"{prefix}.N", volts), ("L2", f"{prefix}.N", f"{prefix}.L2", volts)]
    return [(line, f"{prefix}.{line}", f"{prefix}.N", volts) for line in lines]


def pv_array(node: Node, cell: float = 25.0) -> solar.Array:
    """A pv node as an array at `cell` [°C] in full sun; what its data sheet leaves out by the usual ratios."""
    voc, isc = node["voc"], node["isc"]
    return solar.array(
        voc, node.get("vmp") or 0.82 * voc, isc, node.get("imp") or 0.94 * isc,
        node.get("series") or 1, node.get("parallel") or 1, cell=cell,
        voc_share=node.get("voc drift") or 0.0, vmp_share=node.get("vmp drift") or node.get("voc drift") or 0.0,
    )
