"""The measured side by plain set reachability: take the shunts out, see what is left on the banks' posts."""

from __future__ import annotations

from collections import deque

from diagrammer.netlist.model import System
from tests.independent.wiring import Link, links, neighbours, reach

BANKS = ("bank", "battery")


def house(system: System) -> list[str]:
    """Banks and batteries that are not an engine's own."""
    return [n.name for n in system.nodes.values() if n.kind.name in BANKS and n.get("duty") != "starter"]


def return_links(system: System, without: frozenset[str]) -> list[Link]:
    """Links of the return side, earth and bonds included; nothing through the inside of a converter."""
    kept = []
    for link in links(system, without):
        if link.kind in ("wire", "bolt"):
            if link.value.side in ("return", "earth") or getattr(link.value, "role", "") == "series":
                kept.append(link)
        elif link.kind == "shunt" or link.value.side == "return" and link.kind not in ("common", "bond"):
            kept.append(link)
    return kept


def bank_shunts(system: System) -> list[str]:
    """Shunts that stand in the return and measure nothing in particular."""
    returned = {i.node for i in system.insides if i.form == "shunt" and i.side == "return"}
    return [
        name for name in returned if not system.nodes[name].get("measures") and system.nodes[name].get("side") != "feed"
    ]


def unmeasured(system: System, without: frozenset[str] = frozenset()) -> set[str]:
    """Nodes whose return, bond or charge lands on the bank's side of every shunt.

    Batteries, bms, switches and fuses only pass the bank's current, and so do bars where nothing else lands;
    bars themselves are looked through.
    """
    shunts = bank_shunts(system)
    if not shunts:
        return set()
    chosen = return_links(system, without)
    around = neighbours(chosen, one_way=False)
    hung: set[str] = set()
    for bank in posts(system, around):
        side = reach(around, [f"{bank}.-"], lambda link: link.kind == "shunt" and link.value.node in shunts)
        if not any(t.startswith(f"{shunt}.") for t in side for shunt in shunts):
            continue  # no shunt of its own
        for terminal in side:
            node = system.nodes[system.terminals[terminal].node]
            if (
                node.name in house(system)
                or node.kind.name in ("shunt", "bms", "bar", "joint")
                or node.kind.sort == "through"
            ):
                continue
            hung.add(node.name)
    return hung | past(system, around, shunts)


def posts(system: System, around) -> list[str]:
    """Banks whose minus is not the plus of another one's."""
    found = []
    for bank in house(system):
        linked = reach(
            around, [f"{bank}.-"], lambda link: link.kind == "shunt" or getattr(link.value, "role", "") != "series"
        )
        if not any(t.endswith(".+") for t in linked):
            found.append(bank)
    return found


def past(system: System, around, shunts: list[str]) -> set[str]:
    """Shunts whose two posts are joined without them."""
    return {
        name
        for name in shunts
        if f"{name}.system"
        in reach(around, [f"{name}.battery"], lambda link: link.kind == "shunt" and link.value.node in shunts)
    }


def backwards(system: System, without: frozenset[str] = frozenset()) -> set[str]:
    """Shunts whose system post is nearer to the banks than the battery post, counted in shunts passed."""
    around = neighbours(return_links(system, without), one_way=False)
    passed = {f"{bank}.-": 0 for bank in posts(system, around)}
    todo = deque(passed)
    while todo:
        at = todo.popleft()
        for other, link in around.get(at, ()):
            cost = passed[at] + (link.kind == "shunt")
            if cost < passed.get(other, cost + 1):
                passed[other] = cost
                (todo.append if link.kind == "shunt" else todo.appendleft)(other)
    far = len(system.nodes)
    return {
        name for name in bank_shunts(system) if passed.get(f"{name}.system", far) < passed.get(f"{name}.battery", far)
    }
