"""Two sources of alternating current can feed one net at once.

Why: they are not in step; an inverter is destroyed, and a plug or a line that should be dead can be live and kill.

Fix: put a transfer switch or an interlock between them, and have it done and tested as local codes ask.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.sources import TwoSources
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import joined, name
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("NEC 702.5, from memory", "ISO 13297, from memory")
SYMPTOMS = ("neutral-bond", "shore-overloaded")

GOOD = """
title: Shore and generator on a transfer switch
nodes:
  pedestal: {kind: shore, rating: 30 A}
  generator: {kind: generator, power: 3 kW, neutral: floating}
  transfer: {kind: transfer, rating: 30 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> breaker 2-pole 30 A -> transfer.1, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: generator -> breaker 2-pole 25 A -> transfer.2, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: transfer -> breaker 15 A -> heater, wire: [10 AWG 0.3 m, 2 m]}
"""

BAD = """
title: Shore and generator on one panel
nodes:
  pedestal: {kind: shore, rating: 30 A}
  generator: {kind: generator, power: 3 kW, neutral: floating}
  panel: {kind: ac panel, rating: 60 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> breaker 2-pole 30 A -> panel, wire: [10 AWG 0.3 m, 1 m]}
  - {ac: generator -> breaker 2-pole 25 A -> panel, wire: [10 AWG 0.3 m, 1 m]}
  #      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ two-ac-sources: `generator` and `pedestal` can feed one net at once
  - {ac: panel/breaker 15 A -> heater, wire: 12 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("two-ac-sources"):
        nodes = tuple(dict.fromkeys((fact.second, fact.first, *fact.nodes)))
        yield finding(__name__, survey, fact, _message(fact), nodes=nodes)


def _message(fact: TwoSources) -> str:
    stand = joined([f"{name(node)} at {position}" for node, position in fact.positions])
    when = f", with {stand}" if stand else ""
    return f"{name(fact.second)} and {name(fact.first)} can feed one net at once{when}"
