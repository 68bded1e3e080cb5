"""Voltage domains by a plain walk: every terminal gets a potential, every claim is compared with it."""

from __future__ import annotations

from diagrammer.netlist.model import System
from tests.independent.wiring import LINES, links, neighbours, reach

CLASSES = ("storage", "source", "input", "load")  # whose claim counts first
FACTOR = 1.1  # a nominal voltage stands for V/1.1 to 1.1 V


def interval(claim, base: float) -> tuple[float, float]:
    """[V] what a claim bears, `base` above the bottom of its stack: a nominal widened, a stated range drawn in."""
    low, high = claim.low + base, claim.high + base
    if low == high:
        return low / FACTOR, high * FACTOR
    drawn = (low * FACTOR, high / FACTOR) if claim.stated else (low, high)
    return drawn if drawn[0] <= drawn[1] else (low, high)


def claims(system: System):
    """(node, claim, plus terminal, minus terminal) of the dc ports; ac ones with their first line and neutral."""
    for node in system.nodes.values():
        for claim in node.kind.claims(node.values):
            ends = {t.pole: t.id for t in system.terminals.values() if (t.node, t.port) == (node.name, claim.port)}
            line = next((ends[core] for core in ("+", *LINES) if core in ends), None)
            if line:
                yield node, claim, line, ends.get("-"), "+" in ends


def clashes(system: System, without: frozenset[str] = frozenset()) -> set[frozenset[str]]:
    """Pairs of nodes whose claims meet on one feed net and have no voltage in common. One of the two is of the
    highest class there.

    Every switch counts as closed, every position at once. Batteries in a stack stand on the potential
    of the one below.
    """
    everything = [li for li in links(system, without) if li.kind not in ("common", "bond", "other")]
    around = neighbours(everything, one_way=False)
    lift = potentials(system, around)
    groups: dict[frozenset[str], list] = {}
    nets: dict[str, frozenset[str]] = {}
    for node, claim, plus, minus, dc in claims(system):
        if plus not in nets:
            net = frozenset(reach(around, [plus]))
            nets.update(dict.fromkeys(net, net))
        groups.setdefault(nets[plus], []).append((node, claim, plus, dc, lift.get(minus, 0.0) if dc else 0.0))
    found = set()
    for net, members in groups.items():
        held = any(system.nodes[system.terminals[t].node].kind.name == "dump controller" for t in net)
        first = min(CLASSES.index(claim.role) for _, claim, *_ in members)
        for i, (a, one, _, dc_a, base_a) in enumerate(members):
            for b, two, _, dc_b, base_b in members[i + 1 :]:
                anchored = CLASSES[first] in (one.role, two.role)
                clash = not agree(one, dc_a, base_a, two, dc_b, base_b) or uncontrolled(held, a, b)
                if anchored and a.name != b.name and clash:
                    found.add(frozenset((a.name, b.name)))
    return found


def raw(node) -> bool:
    """Whether a node gives what only a controller may take: pv, wind, hydro."""
    return any(give.role == "raw" for give in node.kind.gives(node.values))


def uncontrolled(held, a, b) -> bool:
    """A raw source with a battery on its net; a dump controller there holds wind and water, not pv."""
    source, store = (a, b) if raw(a) else (b, a)
    stored = any(give.role == "storage" for give in store.kind.gives(store.values))
    return raw(source) and stored and not (held and source.kind.name != "pv")


def agree(one, dc_one: bool, base_one: float, two, dc_two: bool, base_two: float) -> bool:
    if dc_one != dc_two:
        return False
    if not dc_one:
        return not one.volts or not two.volts or bool(set(one.volts) & set(two.volts))
    (low, high), (least, most) = interval(one, base_one), interval(two, base_two)
    return max(low, least) <= min(high, most) + 1e-9


def potentials(system: System, around) -> dict[str, float]:
    """[V] of the minus of each battery that stands on another: the nominal voltages below it added up."""
    batteries = [(n, c) for n in system.nodes.values() for c in n.kind.claims(n.values) if c.role == "storage"]
    lift: dict[str, float] = {}
    for _ in batteries:
        for node, _ in batteries:
            minus = node.terminal("-")
            for terminal in reach(around, [minus]):
                owner = system.terminals[terminal].node
                below = next((c for n, c in batteries if n.name == owner), None)
                if owner != node.name and below and terminal == f"{owner}.+":
                    lift[minus] = lift.get(f"{owner}.-", 0.0) + below.low
    return lift
