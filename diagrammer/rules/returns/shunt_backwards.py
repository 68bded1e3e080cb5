"""The battery side and the system side of a shunt are swapped.

Why: charging is counted as discharging, and what is fed from its battery side, such as its own sense lead's return, is
measured from the wrong end.

Fix: turn the shunt round, or swap the two names in the netlist if only those are wrong.
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
title: All of the current passes the shunt
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  meter: {kind: shunt, rating: 200 A}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> panel
    return: bank -> meter -> panel
    wire: {feed: 8 AWG 1 m, return: [8 AWG 0.3 m, 0.3 m]}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""

BAD = """
title: Shunt the wrong way round
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  meter: {kind: shunt, rating: 200 A}
# ^^^^^ shunt-backwards: the system side of the shunt `meter` faces `bank`
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> panel
    return: bank -> meter.system -> panel
    wire: {feed: 8 AWG 1 m, return: [8 AWG 0.3 m, 0.3 m]}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("shunt-backwards"):
        bank = "".join(map(name, fact.nodes[1:])) or "the bank"
        yield finding(__name__, survey, fact, f"the system side of the shunt {name(fact.nodes[0])} faces {bank}")
