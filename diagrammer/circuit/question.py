"""Can this system run that, for how long, and what stops it: one more load, in every operating state."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import chain

from diagrammer.circuit.batteries import Battery, batteries
from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.flow import Operation
from diagrammer.circuit.states import State, states
from diagrammer.circuit.graph import build
from diagrammer.circuit.view import View
from diagrammer.circuit.voltages import Voltages
from diagrammer.circuit.windings import windings
from diagrammer.electrics import battery
from diagrammer.electrics.network import Collapse, Load
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node, System

NAME = "what is asked"
INVERTERS, SUPPLIES = ("inverter", "inverter charger"), ("shore", "generator")
MAINS = (("outlet",), ("ac panel",), INVERTERS)  # where a thing of ac is joined, best first
REST = 0.01  # [A] a bank that gives no more rests
MARGIN = 1.0001  # a limit that is met to the last digit is not passed


@frozen
class Question:
    """A thing of `watts` [W] that runs `hours` [h] (0: on and on) and takes `start` [W] for a moment."""

    what: str
    watts: float
    hours: float = 0.0
    start: float = 0.0


@frozen
class Stop:
    """One limit that is passed: of which node or circuit, what it is, the value asked and the limit, in `unit`."""

    subject: str
    what: str
    asked: float
    limit: float
    unit: str


@frozen
class Answer:
    """The thing at one place in one state.

    dead: no source reaches the place. stops: what is passed, the narrowest first. volts: at the thing [V].
    collapse: the network cannot carry it. hours: how long the banks last from full [h], None where they do not discharge.
    bank: the one that is empty first. share: of that bank's usable charge in the time asked for.
    """

    place: str
    state: State
    dead: bool = False
    stops: tuple[Stop, ...] = ()
    volts: float = 0.0
    collapse: Collapse | None = None
    hours: float | None = None
    bank: str = ""
    share: float = 0.0

    @property
    def yes(self) -> bool:
        return not self.dead and not self.stops and self.collapse is None and (self.share <= 1.0)


def places(system: System, volts: float | None = None) -> tuple[Node, ...]:
    """Where a thing can be joined: the outlets, where there is none the ac panels, where there is none of these either
    the inverters; or, for a thing of dc `volts`, the dc panels and bars of that domain."""
    if volts is None:
        found = (tuple(node for node in system.nodes.values() if node.kind.name in kinds) for kinds in MAINS)
        return next(filter(None, found), ())
    return tuple(
        node for node in system.nodes.values()
        if node.kind.name == "panel" or (node.kind.name == "bar" and node.get("pair"))
    )


def ask(system: System, question: Question, place: Node) -> tuple[Answer, ...]:
    """The answer at one place in each operating state."""
    return tuple(_answer(system, question, place, state) for state in states(system))


def _ends(system: System, place: Node) -> tuple[str, str]:
    if place.kind.name in chain(*MAINS):
        port = next((port for port in place.ports if port.name == "out"), place.ports[0])
        _, plus, minus, _ = windings(place, port)[0]
        return plus, minus
    pair = place.get("pair")
    plus = f"{place.name}.+" if f"{place.name}.+" in system.terminals else place.name
    minus = f"{place.name}.-" if not pair else pair if pair in system.terminals else f"{pair}.-"
    return plus, minus


def _answer(system: System, question: Question, place: Node, state: State) -> Answer:
    plus, minus = _ends(system, place)

    def running(watts: float) -> Operation:
        return Operation(system, state, "nominal", extra=(Load(NAME, plus, minus, "power", watts),))

    operation = running(question.watts)
    if isinstance(operation.result, Collapse):
        return Answer(place.name, state, collapse=operation.result)
    if NAME in operation.flow.dead:
        return Answer(place.name, state, dead=True)
    stops = list(_narrowest(_stops(operation, place)))
    if question.start > question.watts:
        starting = running(question.start)
        stops += _surges(starting) if starting.flow else [Stop(place.name, "start", question.start, 0.0, "W")]
    hours, bank, share = _lasts(operation, question)
    stops.sort(key=lambda stop: -stop.asked / stop.limit if stop.limit else 0.0)
    return Answer(place.name, state, False, tuple(stops), operation.volts(plus, minus), None, hours, bank, share)


def _narrowest(stops: Iterable[Stop]) -> Iterable[Stop]:
    """Of what is passed several times in one node or circuit the narrowest."""
    found: dict[tuple[str, str], Stop] = {}
    for stop in stops:
        key = (stop.subject, stop.what)
        found[key] = max(found.get(key, stop), stop, key=lambda one: one.asked / one.limit)
    return found.values()


def _stops(operation: Operation, place: Node):
    system, flow = operation.system, operation.flow
    for node in system.nodes.values():
        yield from _node_stops(operation, node)
    yield from _passed(place.name, "rating", flow.amps[NAME], place.get("rating"))
    graph = build(system)
    view = View(system, graph, graph)
    carrying, voltages = Carrying(view), Voltages(view)
    for one in system.conductors:
        limit = carrying.limit(one, voltages.nominal(one.a))
        yield from _passed(one.circuit, "ampacity", abs(operation.amps(one)), limit and limit.ampacity.amps)


def _passed(subject: str, what: str, asked: float | None, limit: float | None, unit: str = "A") -> Iterator[Stop]:
    """The stop where a limit that is known is passed."""
    if asked and limit and asked > limit * MARGIN:
        yield Stop(subject, what, asked, limit, unit)


def _node_stops(operation: Operation, node: Node) -> Iterator[Stop]:
    kind, amps = node.kind.name, operation.flow.amps
    yield from _passed(node.name, "rating", operation.through.get(node.name), node.get("rating"))
    yield from _passed(node.name, "discharge", amps.get(node.name), node.get("max discharge"))
    if kind in INVERTERS:
        yield from _passed(node.name, "power", _output(operation, node), node["power"], "W")
    if kind in SUPPLIES:
        lines = windings(node, node.ports[0])
        limit = node.get("rating") or node["power"] / sum(volts for *_, volts in lines)
        for name, *_ in lines:
            yield from _passed(node.name, "rating", amps.get(f"{node.name} {name}"), limit)


def _output(operation: Operation, node: Node) -> float:
    """Power [W] that an inverter gives on all its lines."""
    lines = windings(node, next(port for port in node.ports if port.name == "out"))
    return sum(amps * operation.volts(plus, minus) for name, plus, minus, _ in lines
               if (amps := operation.flow.amps.get(f"{node.name} {name}")))


def _surges(operation: Operation) -> Iterator[Stop]:
    """What gives way while the thing starts: the inverters' surge; fuses stand a start."""
    for node in operation.system.nodes.values():
        if node.kind.name in INVERTERS:
            yield from _passed(node.name, "surge", _output(operation, node), node.get("surge"), "W")


def _lasts(operation: Operation, question: Question) -> tuple[float | None, str, float]:
    """How long the banks last, which is empty first, and the share of it that the question's time takes."""
    given = operation.flow.amps
    lasting = {name: usable(one, given[name]) / given[name] for name, one in batteries(operation.system).items()
               if one.node.get("duty") != "starter" and given[name] > REST}
    if not lasting:
        return None, "", 0.0
    bank = min(lasting, key=lambda name: lasting[name])
    return lasting[bank], bank, question.hours / lasting[bank]


def usable(one: Battery, amps: float, temperature: float = 25.0) -> float:
    """Charge [Ah] that a bank gives at `amps` [A], from full down to what its chemistry bears."""
    return battery.usable(one.node["chemistry"], one.capacity, amps, temperature, one.node.get("peukert"))


def alone(question: Question, system: System) -> System:
    """The system with its own loads off: what the thing takes by itself."""
    off = {node.name: "off" for node in system.nodes.values() if node.kind.name in ("load", "ac load")}
    return replace(system, states={f"{state.name}, nothing else on": {**state.positions, **dict.fromkeys(state.running, "on"), **off} for state in states(system)})
