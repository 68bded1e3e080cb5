"""What must always be on hangs behind the main switch.

Why: whoever leaves the boat or vehicle opens the main switch, and with it the bilge pump, the alarm or the
heater's frost guard is off, unnoticed, until it is needed.

Fix: feed it from ahead of the main switch, with a fuse of its own on the battery's post.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.demand import Demand, demand
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("ABYC E-11 on bilge pumps and alarms, from memory", "common practice")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  bilge-pump: {kind: load, voltage: 12 V, power: 60 W, always on: yes}
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: bank/fuse 10 A -> switch float 10 A -> bilge-pump, wire: [14 AWG 2 m, 1 m]}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  bilge-pump: {kind: load, voltage: 12 V, power: 60 W, always on: yes}
# ^^^^^^^^^^ switched-off-by-main: `bilge-pump` (60 W) must always be on, but `Q1` takes it off `bank`
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 10 A -> switch float 10 A -> bilge-pump, wire: [14 AWG 2 m, 1 m]}
"""
STAYS = frozenset(("wire", "fuse", "breaker", "shunt", "plug", "resistor", "bms", "diode", "switch by itself"))
OPENS = STAYS | {"switch", "selector", "relay"}


def check(survey: Survey) -> Iterator[Finding]:
    asked, banks = demand(survey.cleared), stores(survey.cleared).all
    tops = tuple(top for store in banks for top in store.tops)
    kept = [node for node in survey.cleared.system.nodes.values() if node.get("always on")]
    if not kept:
        return
    ahead, fed = _fed(asked, tops, STAYS), _fed(asked, tops, OPENS)
    for node in kept:
        if node.name not in ahead and node.name in fed:
            switches = _main(asked, tops, node, fed)
            if switches:
                watts = f" ({show(node['power'] * node['count'], 'W')})" if node.get("power") else ""
                off = f"{names(switches)} {verb(switches, 'takes', 'take')} it off {names(_names(banks))}"
                message = f"{name(node.name)}{watts} must always be on, but {off}"
                yield finding(__name__, survey, Fact("switched-off-by-main", nodes=(node.name, *switches)), message)


def _fed(asked: Demand, tops: tuple[str, ...], sorts: frozenset[str], without: tuple[str, ...] = ()) -> frozenset[str]:
    """The loads that the banks feed, through converters too."""
    return frozenset(part.load.name for part in asked.behind(tops, sorts=sorts, without=without))


def _main(asked: Demand, tops: tuple[str, ...], load: Node, fed: frozenset[str]) -> tuple[str, ...]:
    """The switch that takes a load off its bank together with others, or is a battery switch; where each bank has one,
    all of those that have a part in it; none where there is none but its own."""
    nodes = asked.view.system.nodes.values()
    switches = [node for node in nodes if node.kind.name in ("switch", "selector", "relay", "contactor")]
    for node in switches:
        left = _fed(asked, tops, OPENS, (node.name,))
        if load.name not in left and (_battery(node) or len(fed - left) > 1):
            return (node.name,)
    mains = [node.name for node in switches if _battery(node) or node.kind.name == "selector"]
    if load.name in _fed(asked, tops, OPENS, tuple(mains)):
        return ()
    return tuple(one for one in mains
                 if load.name in _fed(asked, tops, OPENS, tuple(other for other in mains if other != one)))


def _battery(node: Node) -> bool:
    return "battery" in (node.get("type") or "")


def _names(banks: tuple[Store, ...]) -> list[str]:
    """Of the house banks, or of all where there are no others."""
    house = [one for store in banks if not store.starter for one in store.names]
    return house or [one for store in banks for one in store.names]
