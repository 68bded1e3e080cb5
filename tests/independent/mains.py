"""Ac sources that meet, position by position."""

from __future__ import annotations

from diagrammer.netlist.model import System
from tests.independent.wiring import LINES, closed, gives_now, links, neighbours, positions, reach, sources


def meeting(system: System, without: frozenset[str] = frozenset()) -> set[frozenset[str]]:
    """Pairs of nodes that make the voltage of one ac line at once. A pv inverter makes none of its own, the
    units of one set make one together."""
    lined = [
        li
        for li in links(system, without)
        if li.kind in ("wire", "bolt", "device", "contact") and li.value.core in LINES
    ]
    given = [
        s
        for s in sources(system)
        if system.terminals[s.terminal].pole in LINES and system.nodes[s.node].kind.name not in ("pv inverter", "drive")
    ]
    found = set()
    for now in positions(system):
        around = neighbours([li for li in lined if closed(system, li, now)])
        live = [s for s in given if gives_now(s, now)]
        for one in live:
            net = reach(around, [one.terminal])
            for two in live:
                a, b = system.nodes[one.node], system.nodes[two.node]
                if two.terminal in net and a.name < b.name and not (a.get("set") and a.get("set") == b.get("set")):
                    found.add(frozenset((a.name, b.name)))
    return found
