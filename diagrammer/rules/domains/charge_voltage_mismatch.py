"""A charger's or alternator's voltage is outside what the bank's chemistry allows.

Why: too high a voltage drives lithium cells past full, where they can vent and burn, and boils lead dry, whose
gas explodes; too low a one never fills the bank.

Fix: set the charger to the bank's chemistry, or put a charger made for it between.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.batteries import Battery
from diagrammer.circuit.charging import Charge, charging
from diagrammer.circuit.stores import Store, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import joined, name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("the battery's data sheet", "voltages by chemistry: the table of batteries (common practice)")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: gel, voltage: 12 V, capacity: 100 Ah, max charge: 60 A}
  block: {kind: engine}
  alternator: {kind: alternator, output: 50 A, voltage: 14.2 V}
circuits:
  - {feed: alternator -> fuse 60 A/bank, return: alternator/block, wire: 6 AWG 1 m}
  - {return: bank -> block, wire: 6 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: gel, voltage: 12 V, capacity: 100 Ah, max charge: 60 A}
  block: {kind: engine}
  alternator: {kind: alternator, output: 50 A, voltage: 14.8 V}
# ^^^^^^^^^^ charge-voltage-mismatch: `alternator` charges `bank` with 14.8 V, but gel of 12 V bears no more than 14.4 V
circuits:
  - {feed: alternator -> fuse 60 A/bank, return: alternator/block, wire: 6 AWG 1 m}
  - {return: bank -> block, wire: 6 AWG 1 m}
"""
NEVER_FULL = 0.98  # of the float voltage: held below it a bank is never full (practice of this program)
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    for charge in charging(view).all:
        banks = [store for store in stores(view).all if charge.reaches(store)]
        reached = [(store, volts) for store in banks if (volts := charge.set_point(store))]
        too_high = [store for store, volts in reached if volts > store.volts(_bears) * (1 + SAME)]
        too_low = [store for store, volts in reached if volts < store.volts(_floats) * NEVER_FULL]
        if too_high:
            least = min(store.volts(_bears) for store in too_high)
            yield _finding(survey, charge, too_high, verb(too_high, "bears", "bear") + " no more than", least)
        elif too_low:
            most = max(store.volts(_floats) for store in too_low)
            yield _finding(survey, charge, too_low, verb(too_low, "is", "are") + " not full below", most, "warning")


def _floats(one: Battery) -> float:
    return one.window.float


def _bears(one: Battery) -> float:
    return one.node.get("max voltage") or one.window.most


def _finding(survey: Survey, charge: Charge, found: list[Store], bears: str, limit: float,
             severity: str = "") -> Finding:
    banks = [battery for store in found for battery in store.names]
    sorts = joined(list(dict.fromkeys(map(_sort, found))))
    message = (f"{name(charge.node.name)} charges {names(banks)} with {show(charge.node['voltage'], 'V')}, but {sorts} "
               f"{bears} {show(limit, 'V')}")
    fact = Fact("charge-voltage-mismatch", nodes=(charge.node.name, *banks))
    return finding(__name__, survey, fact, message, severity=severity)


def _sort(store: Store) -> str:
    """Such as "gel of 24 V"."""
    volts = sum(store.cells[level[0]].node["voltage"] for level in store.stack.strings[0])
    return f"{store.first.node['chemistry']} of {show(volts, 'V')}"
