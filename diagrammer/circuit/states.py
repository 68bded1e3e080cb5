"""Operating states: which sources run, how the multi-way parts stand, which loads are on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import lru_cache

from diagrammer.circuit.reach import Near, neighbours, reached
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node, System
from diagrammer.text.suggest import listed

ENGINE, PARK = ("alternator",), ("shore", "generator")
SKY = {"pv": "sun", "wind": "wind", "hydro": "water"}
OUTSIDE = (*ENGINE, *PARK, *SKY)  # kinds that bring energy in


@frozen
class State:
    """`running`: sources that give. `positions`: of multi-way nodes. `off`: loads that are not on."""

    name: str
    running: frozenset[str]
    positions: Mapping[str, str] = field(default_factory=dict)
    off: frozenset[str] = frozenset()


def states(system: System) -> tuple[State, ...]:
    """Those the netlist names; without any the sensible ones."""
    named = tuple(_named(system, name, said) for name, said in system.states.items())
    return named or derived(system)


def _named(system: System, name: str, said: Mapping[str, str]) -> State:
    running = {node for node, word in said.items() if system.nodes[node].kind.name in OUTSIDE and word != "off"}
    off = {node for node, word in said.items() if word == "off"} - running
    positions = {node: word for node, word in said.items() if _stands(system.nodes[node], word)}
    return _filled(system, State(name, frozenset(running), positions, frozenset(off)))


def _stands(node: Node, word: str) -> bool:
    """Whether a word says how a node stands; "on" closes a switch that rests open."""
    return word in node.kind.positions(node.values) or (word == "on" and node.kind.name == "switch" and node["open"])


def derived(system: System) -> tuple[State, ...]:
    """At rest; then with each sort of source that the system has; then with everything at once."""
    def of(*kinds: str) -> frozenset[str]:
        return frozenset(node.name for node in system.nodes.values() if node.kind.name in kinds)

    every = [("engine running", of(*ENGINE)), ("on shore power", of("shore")), ("on the generator", of("generator")),
             (f"full {listed([word for kind, word in SKY.items() if of(kind)])}", of(*SKY))]
    found = [State("parked, nothing charges", frozenset()), *(State(*one) for one in every if one[1])]
    together = of(*ENGINE) | of(*SKY) | (of("shore") or of("generator"))
    if len(found) > 2:
        found.append(State("everything at once", together))
    return tuple(_filled(system, state) for state in found)


def _filled(system: System, state: State) -> State:
    """With a position for every multi-way node that the state does not name."""
    positions = dict(state.positions)
    for node in system.nodes.values():
        choices = node.kind.positions(node.values)
        if choices and node.name not in positions:
            positions[node.name] = _usual(system, state, node, choices)
    return State(state.name, state.running, positions, state.off)


def _usual(system: System, state: State, node: Node, choices: tuple[str, ...]) -> str:
    """Bypass or a transfer's input where a running source stands behind it, else the one behind which an inverter
    stands, else the first that joins anything."""
    if node.kind.name not in ("inverter charger", "transfer"):
        return _resting(choices)
    inverters = {name for name, one in system.nodes.items() if one.kind.name in ("inverter", "inverter charger")}
    bypasses = node.kind.name == "inverter charger"
    behind = [(inner.positions[0], _behind(system, node, (inner.a,) if bypasses else (inner.a, inner.b)))
              for inner in node.kind.inside(node.values) if inner.positions]
    for names in (state.running,) if bypasses else (state.running, inverters):
        for position, found in behind:
            if found & names:
                return position
    return _resting(choices)


def _resting(choices: tuple[str, ...]) -> str:
    return next((choice for choice in choices if choice != "off"), "off")


def _behind(system: System, node: Node, ends: tuple[str, ...]) -> set[str]:
    """The nodes that inputs reach by conductors, joints and devices; an output leads to no source."""
    starts = [node.terminal(end) for end in ends if not end.startswith("out.")]
    return {system.terminals[name].node for name in reached(starts, _joined(system))}


@lru_cache(maxsize=1)
def _joined(system: System) -> Near:
    """The ac terminals that conductors, joints and devices join in every state."""
    fixed = (one for one in system.insides if not one.positions)
    return neighbours(one for one in (*system.conductors, *system.joints, *fixed) if one.side == "ac")
