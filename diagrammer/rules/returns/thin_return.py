"""The return is thinner than its feed.

Why: the same current flows back as goes out, and the device in the feed is chosen for the feed: an overload or a short
circuit overheats the return first, and it can burn.

Fix: make the return as thick as the feed.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.protection_thin import Thin
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, number, size
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("33 CFR 183.455(c) and ABYC E-11 11.10: a device protects every conductor of its circuit", "common practice")
SYMPTOMS = ("voltage-drop",)

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
title: Thin return
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
  - {name: lamp, feed: panel/fuse 30 A -> lamp, wire: {feed: 10 AWG 3 m, return: 16 AWG 3 m}}
  #                    ^^^^^^^^^^^^^^^^^^^^^^^ thin-return: the return `panel` to `lamp` is 16 AWG, its feed 10 AWG: the feed lets 30 A through, 25 A is the most for the return
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("thin-return"):
        yield finding(__name__, survey, fact, _message(fact), fix=f"Make it {size(fact.feed)}, like the feed.")


def _message(fact: Thin) -> str:
    ends = " to ".join(name(node) for node in fact.nodes)
    thin = f"the return {ends} is {size(fact.back)}, its feed {size(fact.feed)}"
    if fact.flow is None:
        return thin
    let, most = (number(amps) for amps in (fact.flow.total, fact.limit.one))
    return f"{thin}: the feed lets {let} A through, {most} A is the most for the return"
