"""What the checks of ways there and back share: how each node is wired, what feeds it, what is joined."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property

from diagrammer.circuit.graph import edges
from diagrammer.circuit.nets import PASSES, Nets
from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.supply import Supply
from diagrammer.circuit.view import GROUND, View, node_of

GATHERS = ("bar", "panel", "ac panel")  # what others hang on; a spare one leads nowhere by intent
STUDS = ("joint", "terminals")  # what only joins conductors


class Wiring:
    """The whole graph of a view, each question answered once."""

    def __init__(self, view: View):
        self.view = view
        self.nodes = view.system.nodes

    @cached_property
    def excused(self) -> frozenset[str]:
        """The nodes whose faults of supply and return are symptoms. A bar or panel is excused by a
        blamed line that ends on it, not by one that only begins there."""
        legs = [leg for line in self.view.out for leg in self.view.circuits[line].legs]
        ends = {leg.stops[-1].node for leg in legs}
        ends.update(stop.node for leg in legs for stop in leg.stops if self.nodes[stop.node].kind.name not in GATHERS)
        return self.view.named | ends

    @cached_property
    def crossed(self) -> frozenset[str]:
        """The terminals at the ends of circuits that join one pole to the other."""
        wires = (wire for wire in self.view.system.conductors if wire.circuit in self.view.crossed)
        return frozenset(terminal for wire in wires for terminal in (wire.a, wire.b))

    @cached_property
    def degree(self) -> dict[str, int]:
        """How many conductors and joints land on each terminal; the cores of a cable are one."""
        landings: dict[str, set] = {terminal: set() for terminal in self.view.whole}
        for a, b, key, data in edges(self.view.whole):
            if data["form"] in ("conductor", "joint"):
                mark = getattr(data["value"], "cable", key)
                landings[a].add(mark)
                landings[b].add(mark)
        return {terminal: len(marks) for terminal, marks in landings.items()}

    @cached_property
    def wired(self) -> frozenset[str]:
        """The nodes on which anything but a neutral or an earth lands."""
        return frozenset(node_of(t) for t, number in self.degree.items() if number and self._live(t))

    def _live(self, terminal: str) -> bool:
        return self.view.side(terminal) not in ("N", "earth")

    @cached_property
    def open(self) -> tuple[str, ...]:
        """The nodes that lead nowhere, in file order."""
        return tuple(name for name in self.nodes if self._leads_nowhere(name))

    def _leads_nowhere(self, name: str) -> bool:
        kind, values = self.nodes[name].kind, self.nodes[name].values
        if kind.name in STUDS:
            return any(self.degree[t] == 1 for t in self._terminals.get(name, ()) if self._live(t))
        landed = (sum(self.degree[terminal] > 0 for terminal in group) for group in self._passages.get(name, ()))
        return not kind.supplies(values) and 1 in landed

    def root(self, terminals: Iterable[str], otherwise: str, *roles: str) -> str:
        """What to name for all that hangs on a net: the bar, panel or stud that no leg of these roles
        leads to; else the first of them; else the node given."""
        kinds = (*GATHERS, *STUDS, *GROUND)
        found = [name for name in dict.fromkeys(map(node_of, terminals)) if self.nodes[name].kind.name in kinds]
        legs = (leg for circuit in self.view.system.circuits for leg in circuit.legs if leg.role in roles)
        led_to = {leg.stops[-1].node for leg in legs}
        return next((name for name in found if name not in led_to), (found or [otherwise])[0])

    @cached_property
    def _terminals(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for terminal in self.view.system.terminals.values():
            found.setdefault(terminal.node, []).append(terminal.id)
        return found

    @cached_property
    def _passages(self) -> dict[str, list[tuple[str, ...]]]:
        """{node: groups of its terminals that some position joins}."""
        found: dict[str, list[tuple[str, ...]]] = {}
        for first, *others in Nets(self.view.whole, lambda data: data["form"] in (*PASSES, "resistor", "capacitor")):
            if others:
                found.setdefault(node_of(first), []).append((first, *others))
        return found

    @cached_property
    def supply(self) -> Supply:
        return Supply(self.view, self.view.whole)

    @cached_property
    def fed(self) -> tuple[frozenset[str], frozenset[str]]:
        """The terminals that supply reaches, and the nodes with an input among them."""
        return self.supply.fed()

    @cached_property
    def stacks(self) -> Stacks:
        return Stacks(self.view.everything)

    @cached_property
    def nets(self) -> Nets:
        """What is joined where every position counts as closed."""
        return Nets(self.view.whole, lambda data: data["form"] in ("conductor", "joint", "resistor", *PASSES))

    @cached_property
    def apart(self) -> Nets:
        """The same with everything open that rests open or isolates one bank from another."""
        return Nets(self.view.whole, lambda data: data["form"] in ("conductor", "joint", "resistor") or (
            data["form"] in PASSES and not self._separates(self.nodes[data["value"].node])))

    @staticmethod
    def _separates(node) -> bool:
        return node.kind.name == "isolator" or bool(node.get("open"))

    @cached_property
    def back(self) -> Nets:
        """Return sides: what is joined without passing the inside of a converter or a bond."""
        return Nets(self.view.whole, lambda data: way_back(data) or self._single_stud(data))

    def _single_stud(self, data: Mapping) -> bool:
        return data["form"] == "common" and self.nodes[data["value"].node].get("common") == "one"


def way_back(data: Mapping) -> bool:
    """Whether a return may pass: through anything but the inside of a converter or a bond."""
    return data["form"] in ("joint", "resistor", *PASSES) or (
        data["form"] == "conductor" and data["value"].role != "bond")
