"""What conducts in a system: its branches while certain devices are closed, made once for all states in which they are.

Both poles, dc and ac, are one network. Earth conductors and bonds carry nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping
from functools import cached_property, lru_cache, partial

from diagrammer.circuit.reach import length_of, neighbours, reached
from diagrammer.circuit.states import SKY, State
from diagrammer.electrics import conductor
from diagrammer.electrics.network import Branch
from diagrammer.electrics.wiring import Wiring
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, Inside, System

SHUNT_DROP = 0.05  # [V] a shunt loses at its rating (common practice)


@frozen(eq=False)
class Wires:
    """The conductors, joints and closed devices of a system; closed: the numbers of its insides that pass current."""

    system: System
    branches: tuple[Branch, ...]
    closed: tuple[int, ...]

    @cached_property
    def wiring(self) -> Wiring:
        """The branches by numbers, for parts on whatever is not merely passed through."""
        system = self.system
        return Wiring(self.branches, (one.id for one in system.terminals.values()
                                      if one.pole != "earth" and system.nodes[one.node].kind.sort != "through"))

    def reach(self, starts: Iterable[str]) -> set[str]:
        """The terminals that feed and ac conductors, joints and closed devices join to some."""
        return reached(starts, self._near)

    @cached_property
    def _near(self) -> dict[str, list[str]]:
        inside = (one for number in self.closed if (one := self.system.insides[number]).form != "common")
        every = (*self.system.conductors, *self.system.joints, *inside)
        return neighbours(one for one in every if one.side in ("feed", "ac"))


def wires(system: System, state: State, temperature: float) -> Wires:
    """What conducts in a state, its conductors at `temperature` [°C]."""
    fed = any(system.nodes[name].kind.name not in SKY for name in state.running)
    closed = _closed(system, tuple(state.positions.items()), state.off & _passed(system), fed)
    return _known(system)(closed, temperature)


def but(one: Wires, opened: Collection[int], temperature: float) -> Wires:
    """The same with these of its insides open."""
    return _known(one.system)(tuple(number for number in one.closed if number not in opened), temperature)


@lru_cache(maxsize=4)
def _passed(system: System) -> frozenset[str]:
    """The nodes inside which something passes current."""
    return frozenset(inside.node for inside in system.insides)


@lru_cache(maxsize=32)
def _closed(system: System, positions: tuple[tuple[str, str], ...], off: frozenset[str], fed: bool) -> tuple[int, ...]:
    """The numbers of the insides that pass current; fed: from an ac source or an engine."""
    chosen = dict(positions)
    return tuple(number for number, one in enumerate(system.insides) if _passes(system, chosen, off, fed, one))


@lru_cache(maxsize=1)
def _known(system: System) -> Callable[[tuple[int, ...], float], Wires]:
    """The wires of one system, the last few kept; those of another go with it, since they are large."""
    return lru_cache(maxsize=4)(partial(_wires, system))


def _wires(system: System, closed: tuple[int, ...], temperature: float) -> Wires:
    inside = _inside(system)
    return Wires(system, (*_outside(system, temperature), *(inside[number] for number in closed)), closed)


@lru_cache(maxsize=1)
def _outside(system: System, temperature: float) -> tuple[Branch, ...]:
    """Conductors and joints."""
    found = [Branch(one.id, one.a, one.b, _ohms(system, one, temperature)) for one in system.conductors
             if one.side != "earth"]
    found += (Branch(f"joint {number}", joint.a, joint.b, 0.0) for number, joint in enumerate(system.joints)
              if joint.side != "earth")
    return tuple(found)


@lru_cache(maxsize=1)
def _inside(system: System) -> tuple[Branch, ...]:
    return tuple(Branch(f"inside {one.node} {number}", one.a, one.b, _ohms_inside(system, one))
                 for number, one in enumerate(system.insides))


def _ohms(system: System, one: Conductor, temperature: float) -> float:
    if one.wire.size is None:
        return 0.0
    length = length_of(system, one)
    return conductor.resistance(one.wire.size, length, temperature, material=one.wire.material) / one.wire.parallel


def _ohms_inside(system: System, inside: Inside) -> float:
    node = system.nodes[inside.node]
    if inside.form == "shunt":
        return node.get("resistance") or SHUNT_DROP / node["rating"]
    return node["resistance"] if inside.form == "resistor" else 0.0


def _passes(system: System, positions: Mapping[str, str], off: frozenset[str], fed: bool, inside: Inside) -> bool:
    if inside.form in ("bond", "capacitor") or inside.side == "earth":
        return False
    if inside.positions:
        return positions.get(inside.node) in inside.positions
    node = system.nodes[inside.node]
    if node.kind.name == "isolator":
        return fed
    if node.name in off:
        return False
    return not (node.kind.name == "switch" and node.get("open") and node.name not in positions)
