"""No charging path reaches a battery.

Why: it empties once, and a battery that is left empty is soon ruined: lead sulphates, lithium falls below what
it bears and is dangerous to charge again.

Fix: give it a charger, from sun, engine, shore or another bank; or take it out of the netlist.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.charging import CHARGERS
from diagrammer.circuit.paths import EVERYTHING, paths
from diagrammer.circuit.stores import stores
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.symptoms import lone_alternators, suffering
from diagrammer.rules.wording import names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A, vmp: 18 V, imp: 5.6 A}
  sun: {kind: solar charger, type: mppt, output: 10 A, max pv voltage: 75 V}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> sun.pv, wire: 12 AWG 4 m}
  - {feed: sun -> fuse 15 A/panel, wire: 12 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
# ^^^^ bank-never-charged: nothing charges `bank`
  panel: {kind: panel, rating: 50 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
"""
CHARGING = ("charger", "source", "raw", "converter")  # roles that put something into a battery on their net


def check(survey: Survey) -> Iterator[Finding]:
    """On the whole graph, and silent where a charger is on a line that is at fault, or an alternator on no battery: it
    is a charger still."""
    view = survey.start
    givers = [(name, give.port) for name, give in view.gives if give.role in CHARGING]
    chargers = [name for name, _ in givers if view.system.nodes[name].kind.name in (*CHARGERS, "alternator")]
    if suffering(survey).intersection(chargers) or lone_alternators(survey):
        return
    reached = paths(view).reach([terminal for name, port in givers for terminal in view.hot(name, port)], EVERYTHING)
    for store in stores(view).all:
        if not suffering(survey).intersection(store.names) and store.tops[0] not in reached:
            fact = Fact("bank-never-charged", nodes=store.names)
            yield finding(__name__, survey, fact, f"nothing charges {names(store.names)}")
