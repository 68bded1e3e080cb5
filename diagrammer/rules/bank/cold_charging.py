"""A lithium bank may be charged below its lowest charging temperature.

Why: in the cold lithium plates out as metal, which cannot be seen or undone: the bank loses capacity and may
later short inside and burn.

Fix: take a battery whose electronics stop charging in the cold, add a protection circuit that does, or keep it
warm.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.batteries import Battery
from diagrammer.circuit.charging import charging
from diagrammer.circuit.stores import LITHIUM, Stores, stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.battery import chemistry_of
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("the battery's data sheet; without it no charging below 0 °C (common practice)", "ABYC E-13, from memory")

GOOD = """
site: {coldest: -10 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A, vmp: 18 V, imp: 5.6 A}
  sun: {kind: solar charger, type: mppt, output: 10 A, max pv voltage: 75 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> sun.pv, wire: 12 AWG 4 m}
  - {feed: sun -> fuse 15 A/panel, wire: 12 AWG 1 m}
"""

BAD = """
site: {coldest: -10 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah}
# ^^^^ cold-charging: `bank` may not be charged below 0 °C; it gets -10 °C cold here, and nothing stops `sun` then
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A, vmp: 18 V, imp: 5.6 A}
  sun: {kind: solar charger, type: mppt, output: 10 A, max pv voltage: 75 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> sun.pv, wire: 12 AWG 4 m}
  - {feed: sun -> fuse 15 A/panel, wire: 12 AWG 1 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    coldest = survey.system.site.coldest
    if coldest is None:
        return
    found = stores(survey.cleared)
    for store in found.all:
        given = charging(survey.cleared).of(store)
        for one in (store.cells[battery] for battery in store.names) if given else ():
            lowest = _lowest(one)
            if lowest is not None and coldest < lowest and not _watched(survey, found, one):
                yield finding(
                    __name__, survey, Fact("cold-charging", nodes=(one.node.name,)),
                    f"{name(one.node.name)} may not be charged below {lowest:g} °C; it gets {coldest:g} °C cold here, "
                    f"and nothing stops {names(charge.node.name for charge in given)} then",
                )
                break


def _lowest(one: Battery) -> float | None:
    """Lowest temperature [°C] at which a lithium battery may be charged; None where it stops by itself."""
    if one.node["chemistry"] not in LITHIUM or one.node.get("cold cutoff"):
        return None
    stated = one.node.get("charge above")
    return float(chemistry_of(one.node["chemistry"])["charge above"]) if stated is None else stated


def _watched(survey: Survey, found: Stores, one: Battery) -> bool:
    """Whether a protection circuit stands on one of its posts' nets."""
    posts = {found.joined[f"{one.node.name}.{pole}"] for pole in "+-"}
    return any(
        found.joined[terminal.id] in posts for terminal in survey.cleared.system.terminals.values()
        if survey.cleared.system.nodes[terminal.node].kind.name == "bms"
    )
