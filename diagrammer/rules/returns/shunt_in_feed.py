"""A shunt that is made for the return stands in the feed.

Why: its electronics take their supply and their measure from the negative; in the feed they stand at the bank's full
voltage, read nothing or break, and the sense leads carry that voltage into the display.

Fix: move it into the bank's negative, or take a shunt that is made for the feed and say `side: feed`.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "warning"
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
title: Shunt in the feed
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  meter: {kind: shunt, rating: 200 A}
# ^^^^^ shunt-in-feed: the shunt `meter` stands in the feed, it is made for the return
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> meter -> panel
    return: bank -> panel
    wire: {feed: [8 AWG 0.5 m, 0.5 m], return: 8 AWG 0.6 m}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("shunt-in-feed"):
        message = f"the shunt {name(fact.nodes[0])} stands in the feed, it is made for the return"
        yield finding(__name__, survey, fact, message)
