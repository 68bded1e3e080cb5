"""A return lands on the bar of another system, or of another bank.

Why: what feeds the node gets no current back, so the node stays dead, or the current finds its way through
bonds, cable screens and the insides of converters that are not made to carry it.

Fix: land the return where the feed comes from.
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
title: Isolated radio on its own return
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah}
  step-down: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 24 V, common: none}
  panel: {kind: panel, rating: 30 A}
  radio: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: bank/fuse 10 A -> step-down.in, wire: 12 AWG 1 m}
  - {feed: step-down -> panel, wire: 12 AWG 1 m}
  - {feed: panel/fuse 5 A -> radio, wire: 14 AWG 2 m}
"""

BAD = """
title: Isolated radio on the bank's return
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 24 V, capacity: 100 Ah}
  step-down: {kind: converter, voltage: 12 V, output: 10 A, input voltage: 24 V, common: none}
  panel: {kind: panel, rating: 30 A}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
  radio: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {feed: bank/fuse 10 A -> step-down.in, wire: 12 AWG 1 m}
  - {feed: step-down -> panel, wire: 12 AWG 1 m}
  - {feed: panel/fuse 5 A -> lamp, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> radio, return: bank -> radio, wire: 14 AWG 2 m}
  #                                         ^^^^^^^^^^^^^ stray-return: `radio` is fed from `step-down` and returns to ...
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("stray-return"):
        message = f"{name(fact.user)} is fed from {name(fact.source)} and returns to the side of {name(fact.other)}"
        nodes = tuple(dict.fromkeys((fact.user, *fact.nodes)))
        yield finding(__name__, survey, fact, message, nodes=nodes)
