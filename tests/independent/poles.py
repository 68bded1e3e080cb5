"""Feed and return by plain reachability: which nets hold both."""

from __future__ import annotations

from diagrammer.netlist.model import System
from tests.independent.wiring import links, neighbours, reach

BATTERIES = ("bank", "battery")


def mixed(system: System, without: frozenset[str] = frozenset()) -> list[frozenset[str]]:
    """Nets of conductors and closed switches on which plus and minus terminals of dc ports meet. A battery's
    minus on another's plus is a stack, not a fault."""
    everything = [li for li in links(system, without) if li.kind not in ("common", "bond", "other")]
    around = neighbours(everything, one_way=False)
    found, seen = [], set()
    for terminal in system.terminals.values():
        if terminal.pole not in ("+", "-") or terminal.id in seen:
            continue
        net = frozenset(reach(around, [terminal.id]))
        seen |= net
        if wrong(system, net):
            found.append(net)
    return found


def wrong(system: System, net: frozenset[str]) -> bool:
    plus, minus = ([t for t in net if system.terminals[t].pole == pole] for pole in "+-")
    if not plus or not minus:
        return False
    stacked = all(battery(system, t) for t in minus) and any(battery(system, t) for t in plus)
    return not stacked or any(t[:-1] + "-" in net for t in plus)


def battery(system: System, terminal: str) -> bool:
    return system.nodes[system.terminals[terminal].node].kind.name in BATTERIES
