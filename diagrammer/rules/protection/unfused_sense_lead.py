"""A thin lead that only senses or controls leaves a bank or bar without its own fuse.

Why: it takes next to no current in use, but in a short circuit the whole bank feeds it, and a lead so thin burns in a
moment along all its length.

Fix: put a fuse of 1 A or so at the post or bar from which it leaves.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.rules.protection._words import amps, device, far, near, when, with_way
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names, size
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("33 CFR 183.455(b)", "ABYC E-11 11.10.1.1.1 (quoted)", "common practice")

GOOD = """
title: Sense lead with its fuse
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, pair: panel}
  meter: {kind: shunt, rating: 200 A}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> panel
    return: bank -> meter -> panel
    wire: {feed: 8 AWG 1 m, return: [8 AWG 0.5 m, 0.5 m]}
  - {name: sense, feed: bank/fuse 1 A -> meter.sense, wire: 18 AWG 1 m}
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""

BAD = """
title: Sense lead without a fuse
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, pair: panel}
  meter: {kind: shunt, rating: 200 A}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - name: main
    feed: bank/fuse 60 A -> panel
    return: bank -> meter -> panel
    wire: {feed: 8 AWG 1 m, return: [8 AWG 0.5 m, 0.5 m]}
  - {name: sense, feed: bank -> meter.sense, wire: 18 AWG 1 m}
  #                     ^^^^^^^^^^^^^^^^^^^ unfused-sense-lead: the 18 AWG lead from `bank` to `meter` has no fuse where it leaves: ...
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("unfused-sense-lead"):
        end = fact.ends[0]
        what = f"the {size(end.report.piece.wire)} lead from {near(end)} to {far(end)}{when(end)}"
        carries = f", it may carry {amps(end.report.limit.ampacity.amps)}" if end.report.limit else ""
        if end.report.why == "bare":
            feeds = f"{names(end.cause.sources)} feeds it in a short circuit{carries}"
            message = f"{what} has no fuse where it leaves: {feeds}"
        else:
            standing = f"the {device(survey, end.cause.devices[0])}" if end.cause.devices else names(end.cause.sources)
            message = f"{what} has no fuse of its own: only {standing} stands before it{carries}"
        yield with_way(finding(__name__, survey, fact, message, fix=f"Put a fuse of 1 A at {near(end)}."))
