"""The average charge of a bank is below its average use.

Why: day by day it stands lower until it is empty, and a bank that is never full ages fast.

Fix: add modules or another charger, or run its loads for fewer hours.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.charging import Charge
from diagrammer.circuit.energy import Household, chargers, charging_hours, households, sun
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.symptoms import incomplete
from diagrammer.rules.wording import names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice: rated power times hours of full sun, losses of controller and battery taken off",
           "the time of charging: full output until the battery takes less (for lead the ampere-hour law), to 98 %")

GOOD = """
site: {sun hours: 4}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 20 A, max pv voltage: 75 V}
  fridge: {kind: load, voltage: 12 V, power: 50 W, hours: 10}
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 10 A -> fridge, wire: 12 AWG 2 m}
"""

BAD = """
site: {sun hours: 4}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah, cold cutoff: yes}
# ^^^^ never-recovers: `bank` loses 500 Wh a day and the sun brings 376 Wh at most; nothing else charges it
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 100 W, voc: 22 V, vmp: 18 V, isc: 6 A, imp: 5.6 A}
  sun: {kind: solar charger, type: mppt, output: 20 A, max pv voltage: 75 V}
  fridge: {kind: load, voltage: 12 V, power: 50 W, hours: 10}
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 10 A -> fridge, wire: 12 AWG 2 m}
"""
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    """Where the sun alone must do it, a warning; where something else can charge too, and the netlist cannot say for
    how long it runs, a notice of what is left to it."""
    hours = survey.system.site.sun_hours
    if any(node.kind.name == "pv inverter" for node in survey.system.nodes.values()):
        return  # what it leaves to the bank depends on what the ac loads take at noon
    for one in households(survey.cleared) if hours else ():
        given = chargers(survey.cleared, one)
        brought = sun(survey.cleared, one, hours)
        if brought and brought < one.use * (1 - SAME) and not incomplete(survey, one.banks[0]):
            others = tuple(charge for charge in given if not charge.array)
            yield _finding(survey, one, brought, others)


def _finding(survey: Survey, one: Household, brought: float, charges: tuple[Charge, ...]) -> Finding:
    others = tuple(charge.node.name for charge in charges)
    rest = f"nothing else charges {verb(one.names, 'it', 'them')}"
    if others:
        hours = charging_hours(one, charges, one.use - brought)
        runs = f", about {show(hours, 'h', 2)} a day" if hours else ""
        rest = f"the rest has to come from {names(others)}{runs}"
    message = (f"{names(one.names)} {verb(one.names, 'loses', 'lose')} {show(one.use, 'Wh')} a day "
               f"and the sun brings {show(brought, 'Wh')} at most; {rest}")
    fact = Fact("never-recovers", nodes=(*one.names, *others))
    return finding(__name__, survey, fact, message, severity="notice" if others else "")
