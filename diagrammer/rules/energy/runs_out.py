"""The bank empties before the autonomy that is asked for.

Why: light, pumps, radio and fridge stop before the next charge, and a bank driven down every time is soon worn
out.

Fix: enlarge the bank, run its loads for fewer hours, or ask for less autonomy.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.energy import Household, households
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.symptoms import incomplete
from diagrammer.rules.wording import names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice: average use, usable depth by chemistry, Peukert's law, 25 °C",)

GOOD = """
site: {autonomy: 2 days}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 200 Ah}
  panel: {kind: panel, rating: 50 A}
  fridge: {kind: load, voltage: 12 V, power: 50 W, hours: 10}
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse 10 A -> fridge, wire: 12 AWG 2 m}
"""

BAD = """
site: {autonomy: 2 days}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 80 Ah}
# ^^^^ runs-out: `bank` is empty after 39.3 h, but is to last 48 h: 500 Wh a day out of 819 Wh
  panel: {kind: panel, rating: 50 A}
  fridge: {kind: load, voltage: 12 V, power: 50 W, hours: 10}
circuits:
  - {feed: bank/fuse 50 A -> switch battery 100 A -> panel, wire: [6 AWG 0.5 m, 0.5 m]}
  - {feed: panel/fuse 10 A -> fridge, wire: 12 AWG 2 m}
"""
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    autonomy = survey.system.site.autonomy
    for one in households(survey.cleared) if autonomy else ():
        if one.lasts < autonomy * (1 - SAME) and not incomplete(survey, one.banks[0]):
            yield _finding(survey, one, autonomy)


def _finding(survey: Survey, one: Household, autonomy: float) -> Finding:
    are, wanted = verb(one.names, "is", "are"), show(autonomy, "h")
    message = (f"{names(one.names)} {are} empty after {show(one.lasts, 'h')}, but {are} to last {wanted}: "
               f"{show(one.use, 'Wh')} a day out of {show(one.capacity, 'Wh')}")
    heaviest = sorted(one.parts, key=lambda part: -part.watts * part.factor * part.load["hours"])[:3]
    fact = Fact("runs-out", nodes=(*one.names, *(part.load.name for part in heaviest)))
    return finding(__name__, survey, fact, message)
