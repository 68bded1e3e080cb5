"""No main breaker stands within the distance allowed from an inlet.

Why: the breaker on land is out of reach and may be too large; a short in the wall between inlet and panel burns where
nobody looks.

Fix: put the main breaker at the inlet, within the distance, and have it fitted as the local code asks.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.mains import LINES
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, number
from diagrammer.tables.load import load
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("ABYC E-11, as quoted: within 3 m (10 ft) of the inlet", "common practice under the other practices")

GOOD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal/breaker 2-pole 15 A -> plug inlet 16 A -> breaker 2-pole 15 A -> heater, wire: [12 AWG 10 m, 1 m, 4 m]}
"""

BAD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  heater: {kind: ac load, power: 1 kW}
circuits:
  - {ac: pedestal/breaker 2-pole 15 A -> plug inlet 16 A -> heater, wire: [12 AWG 10 m, 6 m]}
  #                                      ^^^^^^^^^^^^^^^ no-inlet-breaker: no main breaker stands behind the inlet `X1`; 3.05 m along the conductor is the most
"""


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    most = next(float(row["most"]) for row in load("inlet_breakers") if row["practice"] == view.system.practice)
    mains = survey.mains
    blamed = {fact.cables[0] for fact in survey.protection if fact.cables}
    for node in view.system.nodes.values():
        if node.get("type") != "inlet":
            continue
        lines = [line for line in LINES if f"{node.name}.{line}.2" in view.system.terminals]
        ends = [tuple(f"{node.name}.{line}.{end}" for line in lines) for end in (2, 1)]
        for device, length, cables in mains.first_devices(*ends):
            if (device and length <= most) or set(cables) & blamed:
                continue
            said = f"{name(device)} stands up to {number(length)} m" if device else "no main breaker stands"
            fact = Fact("no-inlet-breaker", nodes=(node.name,), path=(node.name, *filter(None, (device,))))
            yield finding(__name__, survey, fact, f"{said} behind the inlet {name(node.name)}; {number(most)} m along the conductor is the most")
            break
