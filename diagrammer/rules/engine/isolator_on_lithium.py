"""A voltage-sensing isolator feeds a lithium bank and nothing limits the current.

Why: a lithium bank takes all that an alternator can give, hour after hour, until it overheats; and its voltage
holds the isolator closed when the engine stands, so that the two banks stay joined.

Fix: put a dc charger in place of the isolator, sized for the alternator's continuous output.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.paths import FOR_GOOD, paths
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice", "ABYC E-13, from memory")
SYMPTOMS = ("bank-overdrawn", "overloaded-bar", "protection-too-small")

GOOD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}
  alternator: {kind: alternator, output: 90 A, voltage: 14.2 V}
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, max charge: 100 A}
  split: {kind: isolator, rating: 140 A, type: sensing}
circuits:
  - {feed: alternator -> fuse 125 A/engine-battery, return: alternator/block, wire: 2 AWG 1 m}
  - {return: engine-battery -> block, wire: 2 AWG 1 m}
  - {feed: engine-battery/fuse 125 A -> split -> fuse 125 A/bank, return: block -> bank, wire: [2 AWG 1 m, 1 m]}
"""

BAD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}
  alternator: {kind: alternator, output: 90 A, voltage: 14.2 V}
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, max charge: 100 A}
  split: {kind: isolator, rating: 140 A, type: sensing}
# ^^^^^ isolator-on-lithium: `split` joins `alternator` (90 A) to the lithium of `bank`: nothing limits the current
circuits:
  - {feed: alternator -> fuse 125 A/engine-battery, return: alternator/block, wire: 2 AWG 1 m}
  - {return: engine-battery -> block, wire: 2 AWG 1 m}
  - {feed: engine-battery/fuse 125 A -> split -> fuse 125 A/bank, return: block -> bank, wire: [2 AWG 1 m, 1 m]}
"""
LEADS = (FOR_GOOD | {"relay", "selector", "diode"}) - {"resistor"}  # what passes current without limiting it


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    lithium = {top: store for store in stores(view).all if store.lithium for top in store.tops}
    machines = {f"{node.name}.+": node for node in view.system.nodes.values() if node.kind.name == "alternator"}
    for node in view.system.nodes.values():
        if node.kind.name != "isolator" or node["type"] == "diode":
            continue
        sides = [paths(view).reach((f"{node.name}.{end}",), LEADS) for end in "12"]
        for near, far in (sides, sides[::-1]):
            engine = [one for terminal, one in machines.items() if terminal in near]
            bank = next((store for top, store in lithium.items() if top in far and top not in near), None)
            if engine and bank:
                given = show(sum(one["output"] for one in engine), "A")
                message = (f"{name(node.name)} joins {names(one.name for one in engine)} ({given}) to the lithium of "
                           f"{names(bank.names)}: nothing limits the current")
                fact = Fact("isolator-on-lithium", nodes=(node.name, *(one.name for one in engine), *bank.names))
                yield finding(__name__, survey, fact, message)
                break
