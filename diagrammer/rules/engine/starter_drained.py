"""House loads can empty the starter battery.

Why: the engine does not start when it is needed; on the water or in winter that can cost a life.

Fix: feed the house loads from a bank of their own, joined to the starter battery through a dc charger or an
isolator only; or switch them with the ignition.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.paths import BY_ITSELF, FOR_GOOD, paths
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice", "ABYC E-11 and ISO 10133 on a battery of its own for starting, from memory")

GOOD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah, pair: block}
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  split: {kind: isolator, rating: 140 A, type: sensing}
  fridge: {kind: load, voltage: 12 V, power: 50 W}
circuits:
  - {return: engine-battery -> block, wire: 2 AWG 1 m}
  - {feed: engine-battery/fuse 100 A -> split -> fuse 100 A/bank, return: block -> bank, wire: [2 AWG 1 m, 1 m]}
  - {feed: bank/fuse 10 A -> fridge, wire: 12 AWG 2 m}
"""

BAD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah, pair: block}
# ^^^^^^^^^^^^^^ starter-drained: `fridge` (50 W) can empty `engine-battery` (90 Ah) while the engine stands
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  split: {kind: isolator, rating: 140 A, type: sensing}
  fridge: {kind: load, voltage: 12 V, power: 50 W}
circuits:
  - {return: engine-battery -> block, wire: 2 AWG 1 m}
  - {feed: engine-battery/fuse 100 A -> split -> fuse 100 A/bank, return: block -> bank, wire: [2 AWG 1 m, 1 m]}
  - {feed: engine-battery/fuse 10 A -> fridge, wire: 12 AWG 2 m}
"""
JOINS = FOR_GOOD | BY_ITSELF | {"diode"}
PARTS = ("ignition", "key", "momentary", "foot")  # types of switch that are open while the engine stands
USES = {"load": "main", "inverter": "main", "inverter charger": "main", "converter": "in", "drive": "main"}


def check(survey: Survey) -> Iterator[Finding]:
    view, found = survey.cleared, paths(survey.cleared)
    parting = {node.name for node in view.system.nodes.values()
               if set((node.get("type") or "").split()) & set(PARTS)}
    using = [node for node in view.system.nodes.values() if node.kind.name in USES and not _short(survey, node)]
    users = {terminal: node for node in using for terminal in view.hot(node.name, USES[node.kind.name])}
    for store in (one for one in stores(view).all if one.starter):
        reached = found.reach(store.tops, JOINS, without=parting)
        drain = [node for terminal, node in users.items() if terminal in reached]
        if drain:
            battery = f"{names(store.names)} ({show(store.capacity, 'Ah')})"
            message = f"{_drain(drain)} can empty {battery} while the engine stands"
            fact = Fact("starter-drained", nodes=(*store.names, *(node.name for node in drain)))
            yield finding(__name__, survey, fact, message)


def _drain(nodes: list[Node]) -> str:
    watts = sum((node.get("power") or 0.0) * node["count"] for node in nodes if node.kind.name == "load")
    return names(node.name for node in nodes) + (f" ({show(watts, 'W')})" if watts else "")


def _short(survey: Survey, node: Node) -> bool:
    """What must always be on, or is on for moments only."""
    return bool(node.get("always on")) or node.name in survey.study.momentary
