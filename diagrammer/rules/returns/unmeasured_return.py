"""A return, a charge source or a bond lands on the bank's side of the shunt.

Why: its current passes the shunt by, so the state of charge that is read drifts away from the true one, and the bank
is emptied or charged too far without anyone being told.

Fix: land it on the system side of the shunt, where everything but the bank itself belongs.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.measured_fact import Unmeasured
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
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
title: Return past the shunt
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
  - {name: lamp, feed: panel/fuse 10 A -> lamp, return: bank -> lamp, wire: 14 AWG 3 m}
  #                                                     ^^^^^^^^^^^^ unmeasured-return: the return of `lamp` lands on `bank`, on the bank's side of the shunt `meter`, which does not measure it
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("unmeasured-return"):
        shunt = name(fact.shunt)
        fix = f"Land it on the system side of {shunt}."
        if fact.parallel:
            fix = f"Land it where the return of {name(fact.bank)} is, on the bank's side of {shunt}."
        elif fact.bypass:
            fix = f"Take it out: {shunt} is the only way between the two."
        yield finding(__name__, survey, fact, _message(survey, fact), fix=fix)


def _message(survey: Survey, fact: Unmeasured) -> str:
    shunt, things, landing = name(fact.shunt), names(fact.things), name(fact.landing)
    where = f"on the bank's side of the shunt {shunt}, which does not measure {verb(fact.things, 'it', 'them')}"
    if fact.parallel:
        return (f"{things} stands parallel to {name(fact.bank)}, but its return lands beyond the shunt {shunt}, which "
                "does not measure it")
    if fact.bypass:
        joins = f"{name(fact.beyond)} is joined to {landing} past the shunt {shunt}"
        return f"{joins}, which does not measure what flows here"
    if fact.cables and survey.start.cables[fact.cables[0]].role == "bond":
        return f"the bond to {name(fact.beyond)} lands on {landing}, {where}"
    if fact.beyond and fact.beyond not in fact.things:
        return f"the return from {name(fact.beyond)}, with {things} on it, lands on {landing}, {where}"
    lands = verb(fact.things, "the return of {} lands", "the returns of {} land").format(things)
    return f"{lands} on {landing}, {where}"
