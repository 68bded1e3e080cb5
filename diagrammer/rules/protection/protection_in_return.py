"""An overcurrent device stands in a return, a neutral or an earth and not in the feed beside it.

Why: when it opens, what it fed stands still but is live up to the last terminal, and a fault from the feed to earth or
chassis goes round it.

Fix: put the device into the feed where that begins; where both conductors must open, take a device with two poles.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("NEC 240.22 (from memory)", "ABYC E-11: the device stands in the ungrounded conductor (from memory)")
GOOD = """
title: Lamp behind fuses that suit it
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2.5 kA}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {name: main, feed: bank/fuse 60 A -> panel, wire: 8 AWG 1 m}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""

BAD = """
title: Fuse in the return
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2.5 kA}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {name: main, feed: bank/fuse 60 A -> panel, wire: 8 AWG 1 m}
  - name: lamp
    feed: panel/fuse 10 A -> lamp
    return: lamp -> fuse 5 A -> panel
    #               ^^^^^^^^ protection-in-return: the 5 A fuse `F3` stands in the return of `lamp`: what it stops stays live, and a fault to earth goes round it
    wire: {feed: 14 AWG 3 m, return: [14 AWG 1 m, 2 m]}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("protection-in-return"):
        one = fact.nodes[0]
        line = f" of {names(fact.lines)}" if fact.lines else ""
        yield finding(
            __name__, survey, fact,
            f"the {device(survey, one)} stands in the {fact.side}{line}: what it stops stays live, and a fault to earth "
            "goes round it",
            fix=f"Take {name(one)} out of the {fact.side}; where both conductors must open, take one of two poles.")
