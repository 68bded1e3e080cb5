"""Prospective short-circuit currents of the dc side, largest and smallest, from all batteries together.

A fault is taken between a terminal of the feed and the way back that is nearest to it: of the
place itself, else upstream (largest) or downstream (smallest) on its circuit's line. Largest: banks
full, conductors cold, selectors in the position that joins most. Smallest: banks low, conductors hot.
Devices that limit themselves add their rating to the largest.
"""

from __future__ import annotations

from functools import cached_property

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.flow import HOT, Operation
from diagrammer.circuit.states import State, states
from diagrammer.electrics.thevenin import seen
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import UNLIMITED
from diagrammer.netlist.model import Leg, Node, Stop, System

COLD = 20.0  # [°C] of a conductor that carries nothing


def way_back(system: System, node: Node, terminal: str) -> str:
    """Where the return of a feed terminal lands: its pair's, or its own -; "" where it has none."""
    pair = system.nodes.get(node.get("pair"))
    if pair is not None:
        return pair.name if pair.name in system.terminals else f"{pair.name}.-"
    own = f"{terminal[:-1]}-" if terminal.endswith("+") else ""
    return own if own in system.terminals else ""


@frozen
class Faults:
    """The short circuits of a system."""

    system: System

    def _pairs(self) -> dict[str, tuple[str, str]]:
        """{feed terminal: (way back upstream, way back downstream)} of every stop of every feed."""
        pairs: dict[str, tuple[str, str]] = {}
        for circuit in self.system.circuits:
            for leg in circuit.legs:
                if leg.role in ("feed", "series"):
                    self._of(leg, pairs)
        return pairs

    def _of(self, leg: Leg, pairs: dict[str, tuple[str, str]]) -> None:
        backs = [self._back(stop) for stop in leg.stops]
        for number, stop in enumerate(leg.stops):
            up = next((back for back in reversed(backs[: number + 1]) if back), "")
            down = next((back for back in backs[number:] if back), "")
            for terminal in filter(None, (stop.enter, stop.leave)):
                pairs.setdefault(terminal, (up or down, down or up))

    def _back(self, stop: Stop) -> str:
        return way_back(self.system, self.system.nodes[stop.node], stop.leave or stop.enter)

    @cached_property
    def _largest(self) -> dict[str, float]:
        return self._seen("full", COLD, most=True, which=0)

    @cached_property
    def _smallest(self) -> dict[str, float]:
        return self._seen("low", HOT, most=False, which=1)

    def _seen(self, charge: str, temperature: float, most: bool, which: int) -> dict[str, float]:
        """{feed terminal: prospective current [A]} of those that a battery reaches."""
        network = Operation(self.system, self._state(most), charge, temperature).network
        wanted = [(terminal, back[which]) for terminal, back in self._pairs().items() if back[which]]
        return {terminal: one.short_circuit for (terminal, _), one in zip(wanted, seen(network, wanted))
                if one.volts > 0}

    def _state(self, most: bool) -> State:
        state = states(self.system)[0]
        positions = dict(state.positions)
        if most:
            for node in self.system.nodes.values():
                if node.kind.name == "selector":
                    insides = [one for one in self.system.insides if one.node == node.name]
                    choices = node.kind.positions(node.values)
                    positions[node.name] = max(choices, key=lambda name: sum(name in one.positions for one in insides))
        return State(state.name, frozenset(), positions)

    @cached_property
    def _limited(self) -> float:
        """[A] that all self-limiting sources of the dc side add at most."""
        given = [
            gives for node in self.system.nodes.values() for gives in node.kind.gives(node.values)
            if gives.role in ("source", "charger") and gives.amps != UNLIMITED
        ]
        return sum(gives.amps for gives in given)

    def largest(self, terminal: str) -> float | None:
        """Largest prospective current [A] at a feed terminal; None where no battery reaches it."""
        found = self._largest.get(terminal)
        return None if found is None else found + self._limited

    def of_batteries(self, terminal: str) -> float | None:
        """Largest prospective current [A] that batteries alone give at a feed terminal; None where none reaches it."""
        return self._largest.get(terminal)

    def smallest(self, terminal: str) -> float | None:
        """Smallest prospective current [A] at a feed terminal; None where no battery reaches it."""
        return self._smallest.get(terminal)

    @property
    def estimated(self) -> tuple[str, ...]:
        """Batteries whose short-circuit current is not given but estimated from capacity and chemistry."""
        return tuple(name for name, one in batteries(self.system).items() if one.node.get("short circuit") is None)
