"""A system's terminals as plain graphs, made again from the netlist: nothing here or beside it is taken
from diagrammer.circuit, so that two ways of reading the same definitions can be held against each other."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from diagrammer.netlist.model import Conductor, System

LINES = ("L", "L1", "L2", "L3")


@dataclass(frozen=True)
class Link:
    """Something that joins two terminals. kind: wire, bolt, device, diode, contact, shunt, common, bond, other."""

    kind: str
    a: str
    b: str
    value: object
    key: str


@dataclass(frozen=True)
class Source:
    """What drives a terminal into a fault, `amps` [A]; math.inf without a limit."""

    node: str
    terminal: str
    amps: float
    role: str
    positions: tuple[str, ...]


FORMS = {
    "overcurrent": "device",
    "diode": "diode",
    "contact": "contact",
    "shunt": "shunt",
    "common": "common",
    "bond": "bond",
}


def links(system: System, without: frozenset[str] = frozenset()) -> list[Link]:
    """Everything that joins terminals, but for the conductors and bolts of the circuits named."""
    found = [Link("wire", w.a, w.b, w, w.id) for w in system.conductors if w.circuit not in without]
    found += [Link("bolt", j.a, j.b, j, f"bolt {n}") for n, j in enumerate(system.joints) if j.circuit not in without]
    found += [Link(FORMS.get(i.form, "other"), i.a, i.b, i, f"{i.node} {n}") for n, i in enumerate(system.insides)]
    return found


def hot(system: System, terminal: str) -> bool:
    """Whether a terminal may belong to the feed side or to an ac line."""
    return system.terminals[terminal].pole not in ("-", "N", "earth")


def feed_side(system: System, everything: list[Link]) -> list[Link]:
    """Links of the feed side and of ac lines. An inside without a side is taken where both ends may be hot."""
    kept = []
    for link in everything:
        if link.kind in ("common", "bond", "other"):
            continue
        side, core = link.value.side, link.value.core
        if side == "feed" or side == "ac" and core in LINES:
            kept.append(link)
        elif side == "" and hot(system, link.a) and hot(system, link.b):
            kept.append(link)
    return kept


def sources(system: System) -> list[Source]:
    """Every terminal that a source drives; a battery drives its minus as well, for what stands below it."""
    found = []
    for node in system.nodes.values():
        for give in node.kind.gives(node.values):
            for terminal in system.terminals.values():
                if (terminal.node, terminal.port) != (node.name, give.port):
                    continue
                if hot(system, terminal.id) or give.role == "storage":
                    found.append(Source(node.name, terminal.id, give.amps, give.role, give.positions))
    return found


def choosers(system: System) -> dict[str, tuple[str, ...]]:
    """What has positions: multi-way nodes, inverter chargers, interlocks."""
    found: dict[str, dict[str, None]] = {}
    for inside in system.insides:
        if inside.positions and system.nodes[inside.node].kind.sort == "end":
            found.setdefault(inside.node, {}).update(dict.fromkeys(inside.positions))
    for node in system.nodes.values():
        if node.name in found:
            for give in node.kind.gives(node.values):
                found[node.name].update(dict.fromkeys(give.positions))
    for number, members in enumerate(system.interlocks):
        found[f"interlock {number}"] = dict.fromkeys(members)
    return {name: tuple(words) for name, words in found.items()}


def positions(system: System) -> Iterator[dict[str, str]]:
    """Every combination of positions."""
    ways = choosers(system)
    for words in product(*ways.values()):
        yield dict(zip(ways, words, strict=True))


def closed(system: System, link: Link, now: dict[str, str]) -> bool:
    """Whether a link conducts in these positions."""
    if link.kind in ("wire", "bolt"):
        return True
    node = link.value.node
    for number, members in enumerate(system.interlocks):
        if node in members and now.get(f"interlock {number}") != node:
            return False
    return not (node in now and link.value.positions and now[node] not in link.value.positions)


def gives_now(source: Source, now: dict[str, str]) -> bool:
    return not source.positions or now.get(source.node, source.positions[0]) in source.positions


def neighbours(chosen: list[Link], one_way: bool = True) -> dict[str, list[tuple[str, Link]]]:
    """Adjacency lists; a diode leads from its first terminal to its second only."""
    around: dict[str, list[tuple[str, Link]]] = {}
    for link in chosen:
        around.setdefault(link.a, []).append((link.b, link))
        if link.kind != "diode" or not one_way:
            around.setdefault(link.b, []).append((link.a, link))
    return around


def reach(around: dict[str, list[tuple[str, Link]]], starts: list[str], stop=lambda link: False) -> set[str]:
    """Terminals reached from `starts` over links that `stop` does not refuse."""
    seen, todo = set(starts), list(starts)
    while todo:
        for other, link in around.get(todo.pop(), ()):
            if other not in seen and not stop(link):
                seen.add(other)
                todo.append(other)
    return seen


def length(system: System, wire: Conductor) -> float:
    """[m] the conductor's own, else the whole run it shares."""
    if wire.length is not None:
        return wire.length
    return system.runs[wire.run].length if wire.run in system.runs else math.inf
