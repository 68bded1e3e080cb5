"""A source of fault current reaches a conductor through no overcurrent device, or only beyond the distance allowed.

Why: a short circuit on that conductor draws all that the source can give, nothing opens, and the conductor glows and
sets fire to what it touches.

Fix: put a fuse or breaker that suits the thinnest conductor behind it at the source, or within the distance that the
practice allows.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.protection import End, Overdrawn
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import node_of
from diagrammer.electrics.protection import distances
from diagrammer.rules.protection._words import (
    amps, device, distance, far, metres, near, place, smaller, spare, thicker, undecided, when, with_way,
)
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names, size
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "33 CFR 183.455(b) and 183.460",
    "ABYC E-11 11.10.1.1.1 (quoted)",
    "NEC 240.21; 0.45 m as common practice",
    "ISO 10133 8.1 (from memory)",
)
SYMPTOMS = ("conductor-overloaded", "voltage-drop", "protection-will-not-clear")
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
title: Main conductor without a fuse
nodes:
  bank: {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 2.5 kA}
  panel: {kind: panel, rating: 60 A}
  lamp: {kind: load, voltage: 12 V, power: 24 W}
circuits:
  - {name: main, feed: bank -> panel, wire: 8 AWG 1 m}
  #                    ^^^^^^^^^^^^^ missing-protection: no overcurrent device stands between `bank` and the 8 AWG from `bank` to `panel`: in a short circuit up to 2500 A flow, it may carry 80 A
  - {name: lamp, feed: panel/fuse 10 A -> lamp, wire: 14 AWG 3 m}
"""


def check(survey: Survey) -> Iterator[Finding]:
    for fact in survey.of("missing-protection"):
        message, fix = message_of(survey, fact), fix_of(survey, fact)
        yield with_way(finding(__name__, survey, fact, message, fix=fix))


def message_of(survey: Survey, fact: Overdrawn) -> str:
    """What stands there, with the current or the distance and what is allowed."""
    end = fact.ends[0]
    if end.report.why == "limited":
        return (f"{names(end.cause.sources)} can drive {amps(end.report.flow.limited)} into the {_to(end)}, which may "
                f"carry {amps(end.report.limit.ampacity.amps)}, and nothing opens")
    if end.report.why == "asked":
        return (f"the {_to(end)} needs a device of its own: the one that is missing ahead of it must pass "
                f"{amps(end.report.flow.asked)}, for this conductor {amps(end.report.limit.one)} is the most")
    sources = tuple(dict.fromkeys(name for one in fact.ends for name in one.cause.sources if one.report.why == "bare"))
    return _too_far(survey, end, sources) if end.ahead else _nothing(survey, fact, sources)


def _to(end: End) -> str:
    return f"{size(end.report.piece.wire)} from {near(end)} to {far(end)}{when(end)}"


def _nothing(survey: Survey, fact: Overdrawn, sources: tuple[str, ...]) -> str:
    end = fact.ends[0]
    known = [survey.system.nodes[name].get("short circuit") for name in sources]
    flows = f"up to {amps(sum(known))} flow" if all(known) else "all that the source gives flows"
    carries = f", it may carry {amps(end.report.limit.ampacity.amps)}" if end.report.limit else ""
    if both_ends(fact):
        return f"no overcurrent device protects the {_to(end)}, which {names(sources)} feed from either end{carries}"
    between = f"between {names(sources)} and the {_to(end)}"
    return f"no overcurrent device stands {between}: in a short circuit {flows}{carries}"


def both_ends(fact: Overdrawn) -> bool:
    return sum(one.report.why == "bare" for one in fact.ends) > 1


def _too_far(survey: Survey, end: End, sources: tuple[str, ...]) -> str:
    length, limit, sort = distance(survey, end)
    what, source = device(survey, end.ahead.node), names(sources)
    if undecided(survey, end):
        return (f"where the {what} stands is not said, it may be {metres(length)} from {source}: {metres(limit)} is "
                f"the most {sort}")
    if length > limit:
        return f"the {what} stands {metres(length)} from {source}: {metres(limit)} is the most {sort}"
    return (f"the {what} is too large for the conductors between it and {source}, of which the {_to(end)} may have "
            f"{amps(end.report.limit.one) if end.report.limit else 'a smaller one'}")


def fix_of(survey: Survey, fact: Overdrawn) -> str:
    """Which device, and where; or what must be said first."""
    end = fact.ends[0]
    suits = smaller(end.report.limit) or "a device that suits it"
    if end.report.why == "limited" and (larger := thicker(survey, end, end.report.flow.limited)):
        return f"Take {larger}, or put {suits} at {near(end)}."
    if undecided(survey, end):
        left = spare(survey, end)
        such = f": [{size(end.report.piece.wire)} {metres(left)}, ...]" if left else ""
        return f"Say how the run divides, a length for each conductor{such}."
    if end.ahead is not None and end.ahead.small:
        return f"Move `{end.ahead.node}` to {place(survey, end, 'to ')}.{_of_supply(survey, end)}"
    if both_ends(fact):
        return f"Put {suits} at each end, or at most {metres(distances(survey.system.practice).bare)} from it."
    return f"Put {suits} at {place(survey, end)}.{_of_supply(survey, end)}"


def _of_supply(survey: Survey, end: End) -> str:
    """A pedestal mostly has a breaker, which the netlist must say."""
    supply = survey.system.nodes[node_of(end.report.entry)]
    if supply.kind.name != "shore":
        return ""
    return f" Where the supply has its own, write it down: `{supply.name}/breaker {amps(supply['rating'])} -> ...`."
