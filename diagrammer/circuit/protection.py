"""Protection: what can flow into every conductor of the feed side and of the lines, from each end.

33 CFR 183.455 and 183.460; ABYC E-11 11.10; NEC 240.4, 240.21; ISO 10133 8; IEC 60364-4-43.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from diagrammer.circuit import protection_return, protection_strings, protection_thin
from diagrammer.circuit.carrying import Carrying
from diagrammer.circuit.protection_ahead import Ahead, Lengths, Met
from diagrammer.circuit.protection_cause import Cause, cause
from diagrammer.circuit.protection_exempt import Exempt
from diagrammer.circuit.protection_flow import reach
from diagrammer.circuit.protection_judge import Judge, Report
from diagrammer.circuit.protection_solve import Solved, solve
from diagrammer.circuit.protection_thin import Through
from diagrammer.circuit.protection_web import Loom, Web
from diagrammer.circuit.view import Fact, View
from diagrammer.kinds.kind import Inner

MISSING, TOO_LARGE, SENSE = "missing-protection", "protection-too-large", "unfused-sense-lead"
SENSE_PORTS = ("sense", "midpoint", "enable", "field", "lamp", "allow-load", "allow-charge")


@dataclass(frozen=True)
class End:
    """One end of a conductor into which too much can flow. ahead: the first device on the same line,
    where one stands; positions: of the selectors on the net, when it happens."""

    report: Report
    cause: Cause
    ahead: Met | None
    positions: tuple[tuple[str, str], ...]
    volts: float


@dataclass(frozen=True)
class Overdrawn(Fact):
    """A conductor that nothing, or something too large, protects."""

    ends: tuple[End, ...] = ()


def find(view: View) -> tuple[Fact, ...]:
    """missing-protection, protection-too-large, unfused-strings, protection-in-return, thin-return."""
    strings, dark = protection_strings.find(view, Loom(view))
    ends, through = _solve(view, Loom(view, dark))
    overdrawn = tuple(_facts(view, ends))
    lines = frozenset(view.cables[fact.cables[0]].circuit for fact in overdrawn)
    return (*overdrawn, *strings, *protection_return.find(view, lines), *protection_thin.find(view, lines, through))


def _solve(view: View, loom: Loom) -> tuple[dict[str, list[End]], dict[str, list[Through]]]:
    """Every report of every combination, by cable, of one entry and reason the first; and what can
    flow into the feeds of every circuit."""
    carrying, lengths = Carrying(view), Lengths(view.system)
    limits = reach(view.system.practice)
    found: dict[str, list[End]] = {}
    through: dict[str, list[Through]] = {}
    for cluster in loom.clusters():
        whole = loom.whole(cluster)
        exempt = Exempt(view, whole, carrying, lengths, limits)
        ahead = Ahead(whole, carrying, lengths, limits)
        for combination in cluster.combinations:
            web = loom.web(cluster, combination) if cluster.edges else whole
            solved = solve(Judge(web, carrying, ahead, exempt.why))
            for report in solved.reports:
                _add(found.setdefault(report.piece.wire.cable, []), view, web, ahead, solved, report)
            protection_thin.collect(through, web, solved)
    return found, through


def _add(ends: list[End], view: View, web: Web, ahead: Ahead, solved: Solved, report: Report) -> None:
    if any((end.report.entry, end.report.why) == (report.entry, report.why) for end in ends):
        return
    met = ahead.on_line(report.piece.wire, report.entry, report.away)
    why = cause(view, web, solved, report)
    ends.append(End(report, why, met, tuple(web.combination.positions.items()), web.volts))


def _facts(view: View, ends: dict[str, list[End]]) -> Iterator[Overdrawn]:
    lines: dict[str, list[str]] = {}
    for cable in view.cables:
        if cable in ends:
            lines.setdefault(view.cables[cable].circuit, []).append(cable)
    for line in lines.values():
        for number, cable in enumerate(line):
            if not _repeats(ends, line, number):
                worst = sorted(ends[cable], key=lambda end: WORSE.index(end.report.why))
                rule = SENSE if _sense(view, cable) else _rule(worst)
                yield Overdrawn(rule, (cable,), _nodes(view, cable), worst[0].cause.path, ends=tuple(worst))


WORSE = ("bare", "rating", "sum", "asked", "limited")


def _rule(ends: Iterable[End]) -> str:
    """Missing where nothing stands between it and a source without limit, or no device at all."""
    whys = {end.report.why for end in ends}
    stands = any(end.report.why in ("rating", "sum") or end.report.why == "asked" and end.report.flow.held < math.inf
                 for end in ends)
    return TOO_LARGE if stands and "bare" not in whys else MISSING


def _sense(view: View, cable: str) -> bool:
    """Whether the line leads to a port that senses or controls, and has no device at all."""
    line = view.circuits[view.cables[cable].circuit]
    stops = [stop for leg in line.legs if leg.role == "feed" for stop in leg.stops]
    ends = (view.system.terminals.get(stop.enter or stop.leave) for stop in stops)
    fused = any(inner.form == "overcurrent" for stop in stops for inner in _inside(view, stop.node))
    return not fused and any(end is not None and end.port in SENSE_PORTS for end in ends)


def _inside(view: View, name: str) -> tuple[Inner, ...]:
    node = view.system.nodes[name]
    return node.kind.inside(node.values)


def _nodes(view: View, cable: str) -> tuple[str, ...]:
    wire = view.cables[cable]
    return tuple(dict.fromkeys(view.system.terminals[end].node for end in (wire.a, wire.b)))


def _repeats(ends: dict[str, list[End]], line: list[str], number: int) -> bool:
    """Whether another conductor of the line already says the same of the same device."""
    own = ends[line[number]]
    devices = {device for end in own for device in end.cause.devices[:1]}
    if not devices or any(end.report.why == "bare" for end in own):
        return False
    for place, other in enumerate(line):
        ahead = {end.ahead.node for end in ends[other] if end.ahead}
        same = {device for end in ends[other] for device in end.cause.devices[:1]}
        if place != number and devices <= ahead or place < number and devices <= same:
            return True
    return False
