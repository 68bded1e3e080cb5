"""The overcurrent device lets through more than a conductor behind it may carry.

Why: an overload or a distant short circuit heats that conductor beyond what its insulation stands while the device
still holds; it melts and can set fire to what is beside it.

Fix: take a smaller device, a thicker conductor, or give the thin part a device of its own where it begins.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.protection import End
from diagrammer.circuit.survey import Survey
from diagrammer.rules.protection._words import (
    amps, device, distance, far, metres, near, place, smaller, thicker, undecided, when, with_way,
)
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import joined, name, size
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "33 CFR 183.455(c): at most 150 % of the ampacity below 50 V",
    "ABYC E-11 11.10: the next larger rating made, at most 150 % (quoted)",
    "NEC 240.4(B), 240.4(D) and 240.21; 110.14(C) (quoted) for what the terminals bear",
    "IEC 60364-4-43 433.1: In at most Iz (from memory)",
)
SYMPTOMS = ("conductor-overloaded", "voltage-drop", "thin-return", "protection-will-not-clear")
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
title: Fuse too large for its conductor
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2.5 kA}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {name: main, feed: bank/fuse 60 A -> panel, wire: 8 AWG 1 m}
  - {name: lamp, feed: panel/fuse 60 A -> lamp, wire: 14 AWG 3 m}
  #                          ^^^^^^^^^^^^^^^^^ protection-too-large: the 60 A fuse `F2` is too large for the 14 AWG from `F2` to `lamp`: 35 A is the most
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("protection-too-large"):
        end = fact.ends[0]
        yield with_way(finding(__name__, survey, fact, message_of(survey, end), fix=fix_of(survey, end)), _table(end))


def message_of(survey: Survey, end: End) -> str:
    """What lets how much through, and how much the conductor may have."""
    limit, flow = end.report.limit, end.report.flow
    what = f"the {size(end.report.piece.wire)} from {near(end)} to {far(end)}{when(end)}"
    if end.report.why == "sum":
        passed, most = amps(flow.devices + flow.limited), amps(limit.several)
        return f"{_together(survey, end)} {passed} into {what}: {most} is the most"
    if end.report.why == "asked":
        return (f"{what} needs a device of its own: what feeds it must pass {amps(flow.asked)}, for this conductor "
                f"{amps(limit.one)} is the most")
    standing = device(survey, end.cause.devices[0])
    if end.ahead is not None:
        return f"only the {standing} protects {what}, {amps(limit.one)} is the most: {_behind(survey, end)}"
    if not _own(survey, end):
        return f"only the {standing} protects {what}: {amps(limit.one)} is the most{_let(survey, end)}"
    return f"the {standing} is too large for {what}: {amps(limit.one)} is the most{_let(survey, end)}"


def _together(survey: Survey, end: End) -> str:
    most = 3
    told = [f"the {device(survey, one)}" for one in end.cause.devices]
    if end.report.flow.limited:
        told.append("sources that limit themselves")
    if len(told) > most:
        told[most - 1:] = [f"{len(told) - most + 1} others"]
    return f"{joined(told)} {'together let' if len(told) > 1 else 'lets'}"


def _let(survey: Survey, end: End) -> str:
    """Where less can flow than the device would let through."""
    rating = survey.system.nodes[end.cause.devices[0]]["rating"]
    return f", and {amps(end.report.flow.largest)} can flow" if end.report.flow.largest < rating else ""


def _own(survey: Survey, end: End) -> bool:
    """Whether the device stands in the path of the conductor's own circuit."""
    line = survey.start.circuits[end.report.piece.wire.circuit]
    return end.cause.devices[0] in {stop.node for leg in line.legs for stop in leg.stops}


def _behind(survey: Survey, end: End) -> str:
    """What is wrong with the device that stands further along."""
    what = device(survey, end.ahead.node)
    if not end.ahead.small:
        return f"the {what} behind it is too large too"
    length, limit, sort = distance(survey, end)
    if undecided(survey, end):
        return (f"where the {what} stands is not said, it may be {metres(length)} away, {metres(limit)} is the most "
                f"{sort}")
    return f"the {what} stands {metres(length)} away, {metres(limit)} is the most {sort}"


def fix_of(survey: Survey, end: End) -> str:
    """The exact replacement where it can be given: a device that is made, or a size."""
    flow, most = end.report.flow, smaller(end.report.limit)
    if end.report.why == "rating" and end.ahead is not None and end.ahead.small:
        if undecided(survey, end):
            return "Say how the run divides, a length for each conductor."
        return f"Move {name(end.ahead.node)} to {place(survey, end, 'to ')}."
    several = end.report.why == "sum"
    let = flow.devices + flow.limited if several else max(flow.asked, flow.largest)
    larger = thicker(survey, end, let, several)
    or_wire = f", or {larger}" if larger else ""
    if several:
        sum_ = amps(end.report.limit.several)
        return f"Take devices that together let at most {sum_} through{or_wire}."
    if not most:
        return f"Take {larger}." if larger else ""
    if end.cause.devices and _own(survey, end):
        return f"Take {most}{or_wire}."
    return f"Put {most} at {place(survey, end)}{or_wire and or_wire + ' for the conductor'}."


def _table(end: End) -> str:
    """Where the ampacity is from."""
    found = end.report.limit.ampacity
    return f"It may carry {amps(found.amps)} by {found.table}{f' ({found.note})' if found.note else ''}."
