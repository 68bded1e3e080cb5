"""A node is fed and has no way back to what feeds it.

Why: no current flows until it finds another way, through a hull, a chassis, a signal cable or a person;
a way back over a bond or through the inside of a converter is not made to carry it.

Fix: give it a return to the bar, post or converter that its feed comes from.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.loops_back import NoReturn
from diagrammer.circuit.poles import Landing
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
title: Lamp with its return
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
title: Lamp without its return
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  lamp: {kind: load, voltage: 12 V, power: 5 W}
# ^^^^ missing-return: `lamp` is fed from `bank` and has no way back: nothing lands on its return
circuits:
  - {feed: bank/fuse 30 A -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: panel/fuse 5 A -> lamp, return: none, wire: 14 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("missing-return"):
        if isinstance(fact, Landing):
            nodes = tuple(dict.fromkeys((*fact.wrong, *fact.nodes)))
            yield finding(__name__, survey, fact, _landing(fact), nodes=nodes)
        else:
            yield finding(__name__, survey, fact, _lost(fact), nodes=(*fact.nodes, *fact.behind))


def _landing(fact: Landing) -> str:
    return (f"the return of {names(fact.wrong)} lands on the feed side of {name(fact.right)}: "
            f"{verb(fact.wrong, 'it has', 'they have')} no way back")


def _lost(fact: NoReturn) -> str:
    node = name(fact.nodes[0])
    if fact.bare:
        how = "gives current" if fact.gives else f"is fed from {name(fact.source)}" if fact.source else "has a feed"
        return f"{node} {how} and has no way back: nothing lands on its return"
    ends = f": the {verb(fact.behind, 'return', 'returns')} of {names(fact.behind)} {verb(fact.behind, 'ends', 'end')} there"
    return f"{node} has no way back to {name(fact.source)}{ends if fact.behind else ''}"
