"""Power flow: a system in an operating state as a resistive network, solved.

Both poles, dc and ac, are one network; converters and inverters couple its islands. An ac line
stands over its neutral like a dc pole (line and line in opposition, three phases as three single
ones: their common neutral is then overstated). Earth conductors and bonds carry nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property, lru_cache

from diagrammer.circuit.converters import CONVERTERS
from diagrammer.circuit.diodes import settled
from diagrammer.circuit.givers import CHARGERS, SOURCES
from diagrammer.circuit.loads import LOADS
from diagrammer.circuit.states import State
from diagrammer.circuit.wires import Wires, wires
from diagrammer.electrics.network import Collapse, Converter, Flow, Load, Network
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Node, System

HOT = 70.0  # [°C] of a loaded conductor


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
    def wires(self) -> Wires:
        return wires(self.system, self.state, self.temperature)

    @property
    def ends(self) -> tuple[Node, ...]:
        """The nodes at which something can be given or taken, in file order."""
        return _ends(self.system)

    def reach(self, starts: Iterable[str]) -> set[str]:
        """The terminals that feed and ac conductors, joints and closed devices join to `starts` in this state."""
        return self.wires.reach(starts)

    @cached_property
    def network(self) -> Network:
        off = self.state.off
        sources, converters = tuple(self._parts(SOURCES)), tuple(self._parts(CONVERTERS, off))
        opposed = [one.minus for one in (*sources, *converters) if one.plus.endswith(".N")]
        below = self.reach(opposed) if opposed else ()
        return Network(
            self.wires.branches, sources=sources, chargers=tuple(self._parts(CHARGERS)),
            loads=tuple(_turned(one, below) for one in (*self._parts(LOADS, off), *self.extra)),
            converters=tuple(_fed_turned(one, below) for one in converters),
        )

    def _parts(self, makers: Mapping[str, Callable[[Operation, Node], Iterator]],
               without: Collection[str] = ()) -> Iterator:
        for node in self.ends:
            if node.kind.name in makers and node.name not in without:
                yield from makers[node.kind.name](self, node)

    @cached_property
    def result(self) -> Flow | Collapse:
        return settled(self.network, self.wires, self.temperature)

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


def _turned(load: Load, below: Collection[str]) -> Load:
    """With its ends exchanged where it stands on the line that lies below the neutral of two lines in opposition."""
    return replace(load, plus=load.minus, minus=load.plus) if load.plus in below else load


def _fed_turned(one: Converter, below: Collection[str]) -> Converter:
    return replace(one, from_plus=one.from_minus, from_minus=one.from_plus) if one.from_plus in below else one


@lru_cache(maxsize=4)
def _ends(system: System) -> tuple[Node, ...]:
    return tuple(node for node in system.nodes.values() if node.kind.sort != "through")
