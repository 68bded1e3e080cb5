"""Stores: the batteries that work as one bank, in strings side by side, joined for good."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property, lru_cache

from diagrammer.circuit.batteries import Battery, batteries
from diagrammer.circuit.nets import Nets
from diagrammer.circuit.paths import FOR_GOOD, sort_of
from diagrammer.circuit.strings import Level, Stack, stacks
from diagrammer.circuit.view import View
from diagrammer.electrics.network import Flow
from diagrammer.frozen import frozen

LITHIUM = ("lifepo4", "lithium")


@frozen(eq=False)
class Store:
    """One bank: of one battery, or of several in series and parallel."""

    stack: Stack
    cells: dict[str, Battery]

    @property
    def names(self) -> tuple[str, ...]:
        return self.stack.nodes

    @property
    def first(self) -> Battery:
        return self.cells[self.names[0]]

    @property
    def starter(self) -> bool:
        return self.first.node["duty"] == "starter"

    @property
    def lithium(self) -> bool:
        return any(self.cells[name].node["chemistry"] in LITHIUM for name in self.names)

    @property
    def tops(self) -> tuple[str, ...]:
        """The + of the uppermost batteries."""
        return tuple(dict.fromkeys(f"{name}.+" for string in self.stack.strings for name in string[-1]))

    @property
    def feet(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys(f"{name}.-" for string in self.stack.strings for name in string[0]))

    def _of(self, level: Level) -> list[Battery]:
        return [self.cells[name] for name in level]

    def over_strings(self, value: Callable[[Battery], float]) -> float:
        """The sum over the strings of the least level, a level being the sum of what stands side by side in it: of a
        capacity [Ah] or a limit of current [A]."""
        return sum(min(sum(map(value, self._of(level))) for level in string) for string in self.stack.strings)

    def limit(self, field: str, usual: Callable[[str, float], float]) -> tuple[float, bool]:
        """Largest current [A] of all its strings when each carries the share of its capacity, and whether every battery
        states it in `field`; what one does not state is what is `usual` for its chemistry and capacity [Ah]."""
        def of(one: Battery) -> float:
            stated = one.node.get(field)
            return usual(one.node["chemistry"], one.capacity) if stated is None else stated

        shares = [
            min(sum(map(of, self._of(level))) for level in string)
            / min(sum(one.capacity for one in self._of(level)) for level in string) for string in self.stack.strings
        ]
        return min(shares) * self.capacity, all(one.node.get(field) is not None for one in self.cells.values())

    def volts(self, value: Callable[[Battery], float]) -> float:
        """The least voltage [V] of the strings, that of a level being the least in it."""
        return min(sum(min(map(value, self._of(level))) for level in string) for string in self.stack.strings)

    def amps(self, flow: Flow) -> float:
        """Current [A] that its strings give together; below zero they are charged."""
        return sum(flow.amps[name] for string in self.stack.strings for name in string[-1])

    @property
    def capacity(self) -> float:
        return self.over_strings(lambda one: one.capacity)

    @property
    def nominal(self) -> float:
        return self.volts(lambda one: one.window.nominal)


class Stores:
    """The banks of one view."""

    def __init__(self, view: View):
        self.view = view

    @cached_property
    def joined(self) -> Nets:
        """Nets of what is joined for good: no relay, selector, isolator, diode, no switch that rests open."""
        system = self.view.system
        def joins(data) -> bool:
            if data["form"] in ("conductor", "joint"):
                return data["side"] != "earth"
            return data["form"] in ("contact", "overcurrent", "shunt") and sort_of(system, data["value"]) in FOR_GOOD
        return Nets(self.view.graph, joins)

    @cached_property
    def all(self) -> tuple[Store, ...]:
        """Every bank, in file order of their first batteries. Starter batteries make banks of their own."""
        known = batteries(self.view.system)
        nets: dict[str, dict[str, tuple[int, int]]] = {}
        for name, one in known.items():
            nets.setdefault(one.node["duty"], {})[name] = (self.joined[f"{name}.+"], self.joined[f"{name}.-"])
        found = [Store(stack, {name: known[name] for name in stack.nodes})
                 for each in nets.values() for stack in stacks(each)]
        order = {name: number for number, name in enumerate(known)}
        return tuple(sorted(found, key=lambda store: min(order[name] for name in store.names)))


@lru_cache(maxsize=4)
def stores(view: View) -> Stores:
    """The banks of a view, found once."""
    return Stores(view)
