"""What one check sees of a system: the graph, what was blamed before it, and what it found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field
from functools import cached_property

import networkx as nx

from diagrammer.circuit.graph import edges, without
from diagrammer.circuit.nets import Nets, nets_of
from diagrammer.circuit.positions import LiveNet, Positions
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import Claim, Gives
from diagrammer.netlist.model import Circuit, Conductor, System, Terminal


GROUND = ("chassis", "hull", "engine", "earth", "rod", "sea plate")


def node_of(terminal: str) -> str:
    """The name of the node a terminal id belongs to."""
    return terminal.partition(".")[0]


@frozen
class Fact:
    """One fault as seen: no words. Each check has a subclass with its own numbers.

    rule: the name of the rule that words it. cables: the blamed cable first ("main:f0"); empty
    where a node is blamed. nodes: the blamed or most concerned node first. path: node names met
    from the source to the fault. edge: the key of a bolted joint, where no conductor is to blame.
    excuses: nodes off the blamed circuit that only suffer from it.
    """

    rule: str
    cables: tuple[str, ...] = ()
    nodes: tuple[str, ...] = ()
    path: tuple[str, ...] = ()
    edge: str = ""
    excuses: tuple[str, ...] = ()

    @property
    def mark(self) -> str:
        """`rule@circuit:hop` or `rule@node`, what tests and people call it."""
        return f"{self.rule}@{(self.cables or self.nodes)[0]}"


@frozen
class View:
    """A system with the lines of earlier faults taken out.

    whole: the graph with everything in it. graph: without the conductors and joints of blamed
    circuits. named: nodes blamed themselves, or excused by name. excused: those and the nodes on
    blamed circuits, in which a symptom is not worth a finding. crossed: circuits that join one pole
    to the other. Both graphs are for reading.
    """

    system: System
    whole: nx.MultiGraph
    graph: nx.MultiGraph
    blamed: frozenset[str] = frozenset()  # cable ids
    excused: frozenset[str] = frozenset()
    out: frozenset[str] = frozenset()  # names of circuits taken out
    named: frozenset[str] = frozenset()
    crossed: frozenset[str] = frozenset()
    _shared: dict = field(default_factory=dict, compare=False, repr=False)

    def without(self, facts: Iterable[Fact], poles: bool = False) -> View:
        """The view for the next check, after these were found; `poles` where they are crossed."""
        facts = tuple(facts)
        if not facts:
            return self
        cables = {cable for fact in facts for cable in fact.cables[:1]}
        lines = {line for fact in facts if (line := self.line(fact))}
        named = {node for fact in facts if not fact.cables for node in fact.nodes[:1]}
        named.update(node for fact in facts for node in fact.excuses)
        nodes = {stop.node for line in lines for leg in self.circuits[line].legs for stop in leg.stops}
        graph = _lines_out(self.graph, lines) if lines else self.graph
        return View(self.system, self.whole, graph, self.blamed | cables, self.excused | named | nodes,
                    self.out | lines, self.named | named, self.crossed | (lines if poles else set()), self._shared)

    @cached_property
    def everything(self) -> View:
        """The same with nothing taken out."""
        return View(self.system, self.whole, self.whole, _shared=self._shared)

    def line(self, fact: Fact) -> str:
        """The circuit whose conductor or joint a fact blames, "" where it blames a node."""
        if fact.cables:
            return self.cables[fact.cables[0]].circuit
        return self.edges[fact.edge]["value"].circuit if fact.edge else ""

    @cached_property
    def nets(self) -> Nets:
        """Terminals joined with every switch closed and every position at once."""
        return nets_of(self.graph)

    @cached_property
    def positions(self) -> Positions:
        return Positions(self.graph, self.system)

    @cached_property
    def live(self) -> tuple[LiveNet, ...]:
        """Every net in every combination of positions."""
        return tuple(self.positions.live())

    @property
    def edges(self) -> Mapping[str, Mapping]:
        """The data of every edge of the whole graph, by key."""
        return self._once("edges", lambda: {key: data for *_, key, data in edges(self.whole)})

    def ends(self, key: str) -> tuple[str, str]:
        """The two terminals of an edge, in the order of the path."""
        value = self.edges[key]["value"]
        return value.a, value.b

    @property
    def circuits(self) -> Mapping[str, Circuit]:
        return self._once("circuits", lambda: {circuit.name: circuit for circuit in self.system.circuits})

    @property
    def cables(self) -> Mapping[str, Conductor]:
        """The first core of every cable, by its id."""
        return self._once("cables", self._first_cores)

    def port(self, node: str, port: str) -> tuple[Terminal, ...]:
        """The terminals of a port, in file order."""
        landings = self._once("landings", self._landings)
        return tuple(one for one in landings.get(node, ()) if one.port == port)

    def poles(self, node: str, port: str) -> dict[str, str]:
        """{pole: terminal id} of a port, in file order."""
        return {one.pole: one.id for one in self.port(node, port)}

    @property
    def gives(self) -> tuple[tuple[str, Gives], ...]:
        """Every node's sources, in file order."""
        return self._once("gives", lambda: tuple(
            (node.name, give) for node in self.system.nodes.values() for give in node.kind.gives(node.values)))

    @property
    def claims(self) -> tuple[tuple[str, Claim], ...]:
        """Every node's voltages, in file order."""
        return self._once("claims", lambda: tuple(
            (node.name, claim) for node in self.system.nodes.values() for claim in node.kind.claims(node.values)))

    def pole(self, node: str, port: str, pole: str) -> str | None:
        """The terminal id of a port's pole, None where it has none."""
        return next((one.id for one in self.port(node, port) if one.pole == pole), None)

    def side(self, terminal: str) -> str:
        """What a terminal says about the net it is on: its own pole; + for a bar with a pair, - for
        the pair, a chassis or an earth; nothing for a contact."""
        pole = self.system.terminals[terminal].pole
        return pole or self._bars.get(terminal, "")

    @property
    def _bars(self) -> Mapping[str, str]:
        return self._once("bars", self._sides_of_bars)

    def _sides_of_bars(self) -> dict[str, str]:
        pairs = {node.get("pair") for node in self.system.nodes.values()}
        found = {}
        for name, node in self.system.nodes.items():
            if node.kind.name in GROUND or name in pairs:
                found[name] = "-"
            elif node.get("pair"):
                found[name] = "+"
        return found

    def hot(self, node: str, port: str) -> tuple[str, ...]:
        """The terminals of a port that are not its way back: +, L, L1 ..., a lead's only one."""
        return tuple(one.id for one in self.port(node, port) if one.pole not in ("-", "N", "earth"))

    def _once(self, name: str, make):
        if name not in self._shared:
            self._shared[name] = make()
        return self._shared[name]

    def _first_cores(self) -> dict[str, Conductor]:
        found: dict[str, Conductor] = {}
        for wire in self.system.conductors:
            found.setdefault(wire.cable, wire)
        return found

    def _landings(self) -> dict[str, tuple[Terminal, ...]]:
        """The terminals of each node."""
        found: dict[str, tuple[Terminal, ...]] = {}
        for terminal in self.system.terminals.values():
            found[terminal.node] = (*found.get(terminal.node, ()), terminal)
        return found


def _lines_out(graph: nx.MultiGraph, lines: set[str]) -> nx.MultiGraph:
    out = {key for *_, key, data in edges(graph)
           if data["form"] in ("conductor", "joint") and data["value"].circuit in lines}
    return without(graph, out)
