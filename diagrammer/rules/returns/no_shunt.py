"""Nothing measures what goes into and out of the bank.

Why: its voltage alone says little about the charge that is left, least of all with lithium.

Fix: put a shunt into the bank's negative, with everything else on its far side.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("common practice",)

GOOD = """
title: All of the current passes the shunt
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  meter: {kind: shunt, rating: 200 A}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> panel
    return: bank -> meter -> panel
    wire: {feed: 8 AWG 1 m, return: [8 AWG 0.3 m, 0.3 m]}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""

BAD = """
title: Bank without a shunt
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
# ^^^^ no-shunt: no shunt measures `bank`
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> panel
    return: bank -> panel
    wire: {feed: 8 AWG 1 m, return: 8 AWG 0.6 m}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("no-shunt"):
        yield finding(__name__, survey, fact, f"no shunt measures {names(fact.nodes)}")
