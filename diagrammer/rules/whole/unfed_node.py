"""No source reaches a node.

Why: it can't work; and a conductor that was meant to reach it may end loose somewhere else.

Fix: give it a feed, or take it out of the netlist.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.poles import Landing
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
title: Panel with its feed
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - {feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> lamp, wire: 14 AWG 2 m}
"""

BAD = """
title: Panel without its feed
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
# ^^^^^ unfed-node: no source reaches `panel`, nor `fan` and `lamp` behind it
  fan: {kind: load, voltage: 12 V, power: 24 W}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
  buzzer: {kind: load, voltage: 12 V, power: 1 W}
circuits:
  - {feed: bank/fuse 1 A -> buzzer, wire: 16 AWG 1 m}
  - {return: bank -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> lamp, wire: 14 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("unfed-node"):
        if isinstance(fact, Landing):
            nodes = tuple(dict.fromkeys((*fact.wrong, *fact.nodes)))
            yield finding(__name__, survey, fact, _landing(fact), nodes=nodes)
            continue
        behind = f", nor {names(fact.behind)} behind it" if fact.behind else ""
        message = f"no source reaches {name(fact.nodes[0])}{behind}"
        yield finding(__name__, survey, fact, message, nodes=(*fact.nodes, *fact.behind))


def _landing(fact: Landing) -> str:
    return (f"the feed of {names(fact.wrong)} lands on the return side of {name(fact.right)}: "
            f"no source reaches {verb(fact.wrong, 'it', 'them')}")
