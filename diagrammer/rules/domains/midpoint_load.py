"""A load hangs on the middle of a series bank with nothing to even it out.

Why: it empties some of the batteries and not those in series with them; these are then overcharged, which
shortens their life and, with lead, gives off gas that can explode.

Fix: feed it from the whole bank through a converter, or put an equaliser on the middle.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.midpoints import find
from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, number
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice",)

GOOD = """
title: Radio behind a converter
nodes:
  low: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  high: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  step-down: {kind: converter, voltage: 12 V, output: 5 A, input voltage: 24 V}
  radio: {kind: load, voltage: 12 V, power: 20 W}
circuits:
  - {series: low/fuse class-t 60 A -> high, wire: 6 AWG 0.3 m}
  - {feed: high/fuse class-t 60 A -> panel, return: low -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> step-down.in, wire: 14 AWG 1 m}
  - {feed: step-down -> radio, wire: 14 AWG 1 m}
"""

BAD = """
title: Radio on the middle of the bank
nodes:
  low: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  high: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  panel: {kind: panel, rating: 30 A}
  fan: {kind: load, voltage: 24 V, power: 24 W}
  radio: {kind: load, voltage: 12 V, power: 20 W}
# ^^^^^ midpoint-load: `radio` hangs on the middle of a stack, at 12 V: it empties `low` and not `high`
circuits:
  - {series: low/fuse class-t 60 A -> high, wire: 6 AWG 0.3 m}
  - {feed: high/fuse class-t 60 A -> panel, return: low -> panel, wire: 6 AWG 1 m}
  - {feed: panel/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: low/fuse 5 A -> radio, return: low -> radio, wire: 14 AWG 2 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in find(survey.after_domains):
        message = (f"{name(fact.nodes[0])} hangs on the middle of a stack, at {number(fact.volts)} V: "
                   f"it empties {names(fact.drained)} and not {names(fact.spared)}")
        yield finding(__name__, survey, fact, message)
