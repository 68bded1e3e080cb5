"""The two poles of something that gives current meet with nothing between.

Why: the whole fault current flows at once; conductors glow, set fire to what is near and burn whoever is
working there, and a battery can burst.

Fix: take the conductor away, or land it on its own side; disconnect the source before touching it.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.poles import Short
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, number
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("common practice",)

GOOD = """
title: Bars kept apart
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 3 kA}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar}
  return-bar: {kind: bar, rating: 100 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 60 A -> feed-bar, return: bank -> return-bar, wire: 6 AWG 1 m}
  - {feed: feed-bar/fuse 5 A -> fan, wire: 14 AWG 2 m}
"""

BAD = """
title: Bars joined
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 3 kA}
  feed-bar: {kind: bar, rating: 100 A, pair: return-bar}
  return-bar: {kind: bar, rating: 100 A}
  fan: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {feed: bank/fuse 60 A -> feed-bar, return: bank -> return-bar, wire: 6 AWG 1 m}
  - {feed: feed-bar/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: feed-bar/fuse 20 A -> return-bar, return: none, wire: 12 AWG 1 m}
  #                 ^^^^^^^^^^^^^^^^^^^^^^^ short-circuit: this joins + and - of `bank` with nothing but wire between; ...
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("short-circuit"):
        yield finding(__name__, survey, fact, _message(survey, fact))


def _message(survey: Survey, fact: Short) -> str:
    first, second = (survey.system.terminals[end] for end in fact.ends)
    poles = f"{first.pole} and {second.pole} of {name(fact.source)}"
    if first.node != second.node:  # the ends of a stack
        poles = f"{first.pole} of {name(first.node)} and {second.pole} of {name(second.node)}"
    amps = survey.system.nodes[fact.source].get("short circuit")
    most = f"; up to {number(amps)} A can flow" if amps else ""
    return f"this joins {poles} with nothing but wire between{most}"
