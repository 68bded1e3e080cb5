"""The first device after an inlet opens one pole where live and neutral can be swapped.

Why: with a reversed plug or a wrongly wired pedestal the neutral is live, and the open breaker then leaves everything
behind it live: who works there is shocked.

Fix: put a breaker there that opens line and neutral together, as the local code asks.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("IEC 60364-7-721", "ABYC E-11, as quoted")

GOOD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> breaker Q-main 2-pole 15 A -> heater, wire: [12 AWG 0.3 m, 4 m]}
"""

BAD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal -> breaker Q-main 15 A -> heater, wire: [12 AWG 0.3 m, 4 m]}
  #                  ^^^^^^^^^^^^^^^^^^^ one-pole-inlet: `Q-main` is the first device after `pedestal` and leaves the neutral closed
"""


def check(survey: Survey) -> Iterator[Finding]:
    view, seen = survey.cleared, set()
    mains = survey.mains
    for source in mains.sources:
        if view.system.nodes[source.node].kind.name != "shore" or not source.neutral:
            continue
        for device, _, cables in mains.first_devices(source.lines):
            if device and device not in seen and f"{device}.N.1" not in view.system.terminals:
                seen.add(device)
                fact = Fact("one-pole-inlet", nodes=(device,), path=(source.node, device))
                yield finding(__name__, survey, fact,
                              f"{name(device)} is the first device after {name(source.node)} and leaves the neutral closed")
