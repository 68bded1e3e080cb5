"""Nothing isolates the array from its controller.

Why: modules are live as long as it is light; without a switch nobody can work on the controller safely, and a
plug pulled under load draws an arc that does not go out.

Fix: put a two-pole switch or breaker for direct current, rated for the array's open voltage, near the
controller.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.arrays import arrays
from diagrammer.circuit.paths import paths
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("NEC 690.13 and 690.15", "IEC 60364-7-712, from memory")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
# ^^^ pv-without-disconnect: no switch stands between `roof` and `sun`
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""
STAYS = frozenset(("wire", "fuse", "shunt", "plug", "resistor", "diode", "switch by itself"))
# what no hand opens under load


def check(survey: Survey) -> Iterator[Finding]:
    found = paths(survey.cleared)
    for array in arrays(survey.cleared):
        bare = []
        for node in array.nodes:
            feed, back = found.reach((f"{node.name}.+",), STAYS), found.reach((f"{node.name}.-",), STAYS)
            if array.port in feed and f"{array.port[:-1]}-" in back:
                bare.append(node.name)
        if bare:
            message = f"no switch stands between {names(bare)} and {name(array.taker.name)}"
            yield finding(__name__, survey, Fact("pv-without-disconnect", nodes=(array.taker.name, *bare)), message)
