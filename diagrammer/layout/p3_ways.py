"""Third phase, which way things leave a spot: upwards to what supplies it, or down."""

from __future__ import annotations

from collections import deque
from dataclasses import field

from diagrammer.frozen import changing
from diagrammer.layout.p1_wiring import RAILS, Spot, STORES, Vertex, Wiring
from diagrammer.layout.p2_chains import Chain

INPUTS = frozenset(("in", "in2", "pv", "1", "2", "3", "generator", "shore"))
DC_INPUT = frozenset(("inverter", "inverter charger", "drive"))  # their main port takes
GIVES_UP = frozenset(("pv", "wind", "hydro", "alternator", "shore", "generator"))
CHOOSES = frozenset(("selector", "transfer"))


@changing
class Tree:
    wiring: Wiring
    chains: list[Chain]
    at: dict[Vertex, dict[str, list[tuple[Chain, bool]]]] = field(default_factory=dict)  # True: at its a
    roots: list[Vertex] = field(default_factory=list)
    reached: dict[Vertex, tuple[Chain, bool] | None] = field(default_factory=dict)  # True: from its a
    cross: dict[int, bool] = field(default_factory=dict)  # chain: True where its devices stand at a
    stores: dict[tuple[int, bool], bool] = field(default_factory=dict)
    parallel: dict[int, tuple[bool, Spot, bool]] = field(default_factory=dict)  # at its a, to what, upwards
    signals: dict[Vertex, list[tuple[str, Chain]]] = field(default_factory=dict)

    def kind(self, vertex: Vertex) -> str:
        return self.wiring.system.nodes[vertex[0]].kind.name

    def ends(self, vertex: Vertex) -> list[tuple[str, Chain, bool]]:
        return [(port, chain, at_a) for port, met in self.at.get(vertex, {}).items() for chain, at_a in met]


def up(made: Tree, chain: Chain, near: Spot) -> bool:
    """Whether a chain leaves `near` upwards: towards what supplies it."""
    at_a = near == chain.a
    if chain.signal:
        return False
    far = chain.b if at_a else chain.a
    node = made.wiring.system.nodes[far[0][0]]
    if node.kind.uses or node.kind.name == "outlet":
        return False
    if made.kind(near[0]) in CHOOSES and made.reached.get(near[0]):
        return _onward(made, near)
    if made.kind(near[0]) not in RAILS | STORES and made.wiring.system.nodes[near[0][0]].kind.sort == "end":
        return top(made, near)
    if node.kind.name in GIVES_UP:
        return True
    if chain.index in made.cross:
        return not at_a
    if leads_to_store(made, chain, at_a):
        return False
    if node.kind.sort == "end" and node.kind.name != "other":
        return not top(made, far)
    return not at_a


def _onward(made: Tree, near: Spot) -> bool:
    """A multi-way switch is passed straight on, whichever end it is met at."""
    chain, from_a = made.reached[near[0]]
    start, entry = (chain.a, chain.b) if from_a else (chain.b, chain.a)
    upward = up(made, chain, start)
    return upward if top(made, entry) != top(made, near) else not upward


def top(made: Tree, spot: Spot) -> bool:
    """Whether a port of a node stands at the top of its symbol: what it takes in."""
    kind = made.kind(spot[0])
    if kind in CHOOSES:
        return spot[1] != "common" and not spot[1].endswith("out")
    spot = spot[0], spot[1].removesuffix("-")
    if spot[1] == "main":
        return kind in DC_INPUT or kind == "other" or kind == "dump controller" or kind == "load"
    if kind == "ac charger":
        return spot[1] == "in"
    return spot[1] in INPUTS


def leads_to_store(made: Tree, chain: Chain, from_a: bool) -> bool:
    """Whether a chain leads, past switches and bars only, to a bank that is not the starter's."""
    key = (chain.index, from_a)
    if key not in made.stores:
        made.stores[key] = False
        made.stores[key] = _finds_store(made, chain, from_a)
    return made.stores[key]


def _finds_store(made: Tree, chain: Chain, from_a: bool) -> bool:
    nodes = made.wiring.system.nodes
    if any(nodes[m.vertex[0]].kind.name in ("isolator", "diode") for m in chain.members):
        return False
    seen: set[Vertex] = set()
    queue = deque([chain.b if from_a else chain.a])
    while queue:
        vertex, port = queue.popleft()
        kind = made.kind(vertex)
        if vertex in seen:
            continue
        seen.add(vertex)
        if kind in STORES:
            return nodes[vertex[0]].get("duty") != "starter"
        if kind not in ("bar", "joint", "selector", "bms"):
            continue
        for _, other, at_a in made.ends(vertex):
            if other is not chain and not other.signal and not at_a:
                queue.append(other.a)
    return False
