"""A node is declared and never wired.

Why: either a circuit was forgotten, or a part is listed that is not there.

Fix: wire it, or take it out of the netlist.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("common practice",)

GOOD = """
title: Everything wired
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: bank/fuse 5 A -> lamp, wire: 14 AWG 2 m}
"""

BAD = """
title: A pump that nothing names
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
  pump: {kind: load, voltage: 12 V, power: 60 W}
# ^^^^ unused-node: `pump` is declared and never wired
circuits:
  - {feed: bank/fuse 5 A -> lamp, wire: 14 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("unused-node"):
        yield finding(__name__, survey, fact, f"{name(fact.nodes[0])} is declared and never wired")
