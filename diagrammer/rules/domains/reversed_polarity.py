"""The feed and the return of a node are swapped.

Why: electronics burn out at once, a battery connected so short-circuits the others, and a device in the
wrong pole leaves the live side unprotected when it opens.

Fix: swap the two conductors; disconnect the sources first.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("common practice",)
SYMPTOMS = ("bank-never-charged", "bank-without-disconnect")

GOOD = """
title: Lamp the right way round
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> lamp, wire: 14 AWG 2 m}
"""

BAD = """
title: Lamp the wrong way round
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> lamp.-, return: panel -> lamp.+, wire: 14 AWG 2 m}
  #              ^^^^^^^^^^^^^^^^^^ reversed-polarity: `lamp` has feed and return swapped: + lands on the return side ...
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("reversed-polarity"):
        has = verb(fact.wrong, "has", "have")
        message = f"{names(fact.wrong)} {has} feed and return swapped: + lands on the return side, - on the feed side"
        nodes = tuple(dict.fromkeys((*fact.wrong, *fact.nodes)))
        cables = tuple(filter(None, (*fact.cables, fact.other)))
        yield finding(__name__, survey, fact, message, nodes=nodes, conductors=cables)
