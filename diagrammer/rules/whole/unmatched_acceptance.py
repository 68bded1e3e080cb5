"""A finding is accepted that is not found.

Why: the fault was mended, or moved; an acceptance that stays hides the next fault of its kind.

Fix: take the acceptance out, or put it beside what the finding is about.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules import acceptance
from diagrammer.rules.rule import load
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("common practice",)
AFTER = True

GOOD = """
title: A return that is left out on purpose
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  probe: {kind: load, voltage: 12 V, power: 1 W, accept: {missing-return: it returns through its screen}}
circuits:
  - {feed: bank/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: bank/fuse 1 A -> probe, return: none, wire: 16 AWG 1 m}
"""

BAD = """
title: A return that is there after all
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah}
  fan: {kind: load, voltage: 12 V, power: 24 W}
  probe:
    kind: load
    voltage: 12 V
    power: 1 W
    accept:
      missing-return: it returns through its screen
    # ^^^^^^^^^^^^^^ unmatched-acceptance: `probe` accepts `missing-return`, which is not found there
circuits:
  - {feed: bank/fuse 5 A -> fan, wire: 14 AWG 2 m}
  - {feed: bank/fuse 1 A -> probe, wire: 16 AWG 1 m}
"""


def check(survey: Survey, findings: tuple[Finding, ...]) -> Iterator[Finding]:
    rule = load(sys.modules[__name__])
    for one in acceptance.acceptances(survey.system):
        if not any(one.covers(found) for found in findings):
            message = f"{name(one.owner)} accepts {name(one.rule)}, which is not found there"
            yield Finding(
                rule.name, rule.severity, message, rule.why, rule.fix, "; ".join(rule.sources), one.place,
                subjects=(one.owner,), nodes=() if one.circuit else (one.owner,),
            )
