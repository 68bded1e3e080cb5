"""A conductor, a device or a source leads nowhere.

Why: what it was meant to reach stays dead, and an end that is live can be touched or can touch something.

Fix: wire its other side, or take it out and insulate what is left.
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
title: Switch wired through
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  key: {kind: switch, rating: 10 A}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: bank/fuse 5 A -> key -> lamp, wire: [14 AWG 1 m, 1 m]}
"""

BAD = """
title: Switch wired on one side
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  key: {kind: switch, rating: 10 A}
# ^^^ open-end: `key` leads nowhere: one of its sides is wired, the other is not
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: bank/fuse 5 A -> key.1, return: none, wire: 14 AWG 1 m}
  - {feed: bank/fuse 5 A -> lamp, wire: 14 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("open-end"):
        node = survey.system.nodes[fact.nodes[0]]
        why = "a single conductor lands on it"
        if node.kind.sort == "through":
            why = "one of its sides is wired, the other is not"
        elif node.kind.gives(node.values):
            why = "its return is wired, its feed is not"
        yield finding(__name__, survey, fact, f"{name(node.name)} leads nowhere: {why}")
