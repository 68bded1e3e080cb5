"""The voltages of a net, nominal and at most: of the stacks of batteries on it, and of what else feeds it."""

from __future__ import annotations

from functools import cached_property

from diagrammer.circuit.batteries import Battery, batteries
from diagrammer.circuit.view import View
from diagrammer.electrics import solar
from diagrammer.kinds.kind import Claim
from diagrammer.netlist.model import Node

SUPPLIES = ("storage", "source")  # roles whose claim says the voltage of a net
LEAD = ("flooded", "agm", "gel")
DEEPEST = -40.0  # [°C] where NEC Table 690.7(A) ends


class Voltages:
    """Voltages by terminal, over the way back of its net; every switch counts as closed."""

    def __init__(self, view: View):
        self.view = view

    def nominal(self, terminal: str) -> float:
        """The net's nominal voltage [V]; 0 where nothing says it."""
        return self._nominal.get(self.view.nets[terminal], 0.0)

    def highest(self, terminal: str) -> float:
        """The highest voltage [V] the net can have: its batteries being charged to the full, its arrays on the
        coldest day, an alternator or charger at the voltage it states; 0 where nothing says it."""
        return self._highest.get(self.view.nets[terminal], 0.0)

    def of_line(self, circuit: str) -> float:
        """The nominal voltage [V] of the line a conductor belongs to, for its return as well."""
        return self._lines.get(circuit, 0.0)

    @cached_property
    def _lines(self) -> dict[str, float]:
        found: dict[str, float] = {}
        for wire in self.view.system.conductors:
            found[wire.circuit] = max(found.get(wire.circuit, 0.0), self.nominal(wire.a), self.nominal(wire.b))
        return found

    @cached_property
    def _nominal(self) -> dict[int, float]:
        found = {number: self._height(number, lambda one: one.node["voltage"], frozenset()) for number in self._tops}
        return self._with_claims({}, lambda node, claim: claim.low) | found

    @cached_property
    def _highest(self) -> dict[int, float]:
        found = {number: self._height(number, _full, frozenset()) for number in self._tops}
        return self._with_claims(found, self._most)

    def _with_claims(self, found: dict[int, float], volts) -> dict[int, float]:
        for name, claim in self.view.claims:
            if claim.role in SUPPLIES:
                value = volts(self.view.system.nodes[name], claim)
                for terminal in self.view.hot(name, claim.port):
                    net = self.view.nets[terminal]
                    found[net] = max(found.get(net, value), value)
        return found

    @cached_property
    def _tops(self) -> dict[int, list[Battery]]:
        """The batteries whose + stands on a net, by its number."""
        found: dict[int, list[Battery]] = {}
        for name, one in batteries(self.view.system).items():
            found.setdefault(self.view.nets[f"{name}.+"], []).append(one)
        return found

    def _height(self, net: int, volts, below: frozenset[int]) -> float:
        if net in below:
            return 0.0
        return max((volts(one) + self._height(self.view.nets[f"{one.node.name}.-"], volts, below | {net})
                    for one in self._tops.get(net, ())), default=0.0)

    def _most(self, node: Node, claim: Claim) -> float:
        if node.kind.name != "pv":
            return max((claim.high, *claim.volts))
        return coldest(node, self.view.system.site.coldest)


def _full(one: Battery) -> float:
    """[V] to which a battery is charged at most: as stated, by equalising where it has that, else to the last."""
    return one.node.get("max voltage") or one.window.equalise or one.window.most


def coldest(pv: Node, temperature: float | None) -> float:
    """Open-circuit voltage [V] of an array's string at the lowest temperature [°C]; at 25 °C where that is not said."""
    celsius = solar.STANDARD if temperature is None else max(temperature, DEEPEST)
    return solar.coldest_voltage(pv["voc"], pv["series"], celsius, pv.get("voc drift"))
