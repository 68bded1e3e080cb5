"""A metal hull or sea plate is joined to the earth of the shore supply with nothing in between.

Why: the earth conductor makes a battery of this hull and all others at the quay; the weaker metal is eaten away below
the water line.

Fix: put a galvanic isolator in the earth conductor of the inlet, or an isolating transformer behind it,
fitted by a person who is licensed for shore supplies.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("ABYC E-11, from memory", "ISO 13297, from memory")
WET = ("hull", "sea plate")

GOOD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
  panel: {kind: ac panel, rating: 16 A}
  plate: {kind: sea plate}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> galvanic-isolator 30 A -> panel, wire: [12 AWG 0.3 m, 0.3 m, 1 m]}
  - {bond: panel -> plate, wire: 8 AWG 2 m}
"""

BAD = """
nodes:
  pedestal: {kind: shore, rating: 16 A}
# ^^^^^^^^ galvanic-path: the earth of `pedestal` is joined to `plate` with no galvanic isolator between
  panel: {kind: ac panel, rating: 16 A}
  plate: {kind: sea plate}
circuits:
  - {ac: pedestal -> breaker 2-pole 15 A -> panel, wire: [12 AWG 0.3 m, 1 m]}
  - {bond: panel -> plate, wire: 8 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    view = survey.cleared
    mains = survey.mains
    wet = [name_ for name_, node in view.system.nodes.items() if node.kind.name in WET]
    for node in view.system.nodes.values() if wet else ():
        earth = mains.earth_of(node.name) if node.kind.name == "shore" else ""
        touched = next((one for one in wet if earth and mains.metal[earth] == mains.metal[one]), "")
        if touched:
            fact = Fact("galvanic-path", nodes=(node.name, touched), path=(node.name, touched))
            yield finding(__name__, survey, fact,
                          f"the earth of {name(node.name)} is joined to {name(touched)} with no galvanic isolator between")
