"""No battery stands on the net of an alternator.

Why: without a battery nothing holds its voltage: it surges with every load that is switched and destroys its
own diodes and what hangs on it.

Fix: wire it to the battery it is to charge.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.symptoms import lone_alternators
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
nodes:
  block: {kind: engine}
  engine-battery: {kind: battery, duty: starter, chemistry: flooded, voltage: 12 V, capacity: 90 Ah}
  alternator: {kind: alternator, output: 60 A, voltage: 14.2 V}
circuits:
  - {feed: alternator -> fuse 80 A/engine-battery, return: alternator/block, wire: 4 AWG 1 m}
  - {return: engine-battery -> block, wire: 4 AWG 1 m}
"""

BAD = """
nodes:
  block: {kind: engine}
  alternator: {kind: alternator, output: 60 A, voltage: 14.2 V}
# ^^^^^^^^^^ alternator-without-battery: no battery stands on the net of `alternator`, so nothing holds its voltage
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, cold cutoff: yes}
  dc-charger: {kind: dc charger, output: 30 A, voltage: 12 V, input voltage: 12 V}
circuits:
  - {feed: alternator -> fuse 60 A -> dc-charger.in, return: alternator/block, wire: [6 AWG 1 m, 1 m]}
  - {return: dc-charger.in -> block, wire: 6 AWG 1 m}
  - {feed: dc-charger -> fuse 40 A/bank, wire: 8 AWG 1 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for node in lone_alternators(survey):
        message = f"no battery stands on the net of {name(node.name)}, so nothing holds its voltage"
        yield finding(__name__, survey, Fact("alternator-without-battery", nodes=(node.name,)), message)
