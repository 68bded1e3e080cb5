"""So many pv strings stand in parallel without a fuse each that the others drive more into one than it takes.

Why: a string that is shaded or shorted takes the current of all others backwards, and its modules and cables burn.

Fix: put a gPV fuse in each string, not above the largest series fuse that the modules' maker allows, or use strings of
one or two.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.protection._words import amps
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("NEC 690.9(A)", "IEC 62548", "NEC 690.8(A)(1): 1.25 times the short-circuit current")
GOOD = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, max charge: 50 A, pair: return-bar}
  meter: {kind: shunt, rating: 300 A}
  return-bar: {kind: bar, rating: 300 A}
  roof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A, parallel: 2}
  sun:  {kind: solar charger, type: mppt, max pv voltage: 60 V, output: 20 A}
circuits:
  - {name: shunt, return: bank -> meter -> return-bar, wire: [8 AWG 0.2 m, 0.2 m]}
  - {name: array, feed: roof -> switch 2-pole 32 A -> sun.pv, wire: [10 AWG 5 m, 1 m]}
  - {name: sun, feed: sun -> switch 30 A -> fuse 30 A/bank, wire: [8 AWG 1 m, 0.3 m]}
"""
BAD = """
practice: abyc
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, max charge: 50 A, pair: return-bar}
  meter: {kind: shunt, rating: 300 A}
  return-bar: {kind: bar, rating: 300 A}
  roof: {kind: pv, power: 100 W, voc: 22 V, isc: 6 A, parallel: 3}
# ^^^^ unfused-strings: 3 strings in parallel without a fuse each...
  sun:  {kind: solar charger, type: mppt, max pv voltage: 60 V, output: 20 A}
circuits:
  - {name: shunt, return: bank -> meter -> return-bar, wire: [8 AWG 0.2 m, 0.2 m]}
  - {name: array, feed: roof -> switch 2-pole 32 A -> sun.pv, wire: [10 AWG 5 m, 1 m]}
  - {name: sun, feed: sun -> switch 30 A -> fuse 30 A/bank, wire: [8 AWG 1 m, 0.3 m]}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("unfused-strings"):
        takes = f"{amps(fact.most)} is the largest series fuse its modules may have" if fact.stated else (
            f"its modules state no largest series fuse, so what one other string gives, {amps(fact.most)}, is the most")
        allowed = f"of at most {amps(fact.most)}" if fact.stated else "that the modules' maker allows"
        yield finding(
            __name__, survey, fact,
            f"{fact.strings} strings in parallel without a fuse each: the others can drive {amps(fact.amps)} into one; "
            f"{takes}", fix=f"Put a gPV fuse {allowed} in each string.")
