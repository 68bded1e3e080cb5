"""Protection: what can flow into every conductor of the feed side and of the lines, from each end.

33 CFR 183.455 and 183.460; ABYC E-11 11.10; NEC 240.4, 240.21; ISO 10133 8; IEC 60364-4-43.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from diagrammer.circuit import protection_return, protection_strings, protection_thin
from diagrammer.circuit.protection_ends import End, ends
from diagrammer.circuit.protection_web import Loom
from diagrammer.circuit.view import Fact, View
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import Inner

MISSING, TOO_LARGE, SENSE = "missing-protection", "protection-too-large", "unfused-sense-lead"
SENSE_PORTS = ("sense", "midpoint", "enable", "field", "lamp", "allow-load", "allow-charge")


@frozen
class Overdrawn(Fact):
    """A conductor that nothing, or something too large, protects."""

    ends: tuple[End, ...] = ()


def find(view: View) -> tuple[Fact, ...]:
    """missing-protection, protection-too-large, unfused-strings, protection-in-return, thin-return."""
    strings, dark = protection_strings.find(view, Loom(view))
    found = ends(view, Loom(view, dark))
    overdrawn = tuple(_facts(view, found.by_cable))
    lines = frozenset(view.cables[fact.cables[0]].circuit for fact in overdrawn)
    return (*overdrawn, *strings, *protection_return.find(view, lines), *protection_thin.find(view, lines, found.through))


def _facts(view: View, found: dict[str, list[End]]) -> Iterator[Overdrawn]:
    lines: dict[str, list[str]] = {}
    for cable in view.cables:
        if cable in found:
            lines.setdefault(view.cables[cable].circuit, []).append(cable)
    for line in lines.values():
        for number, cable in enumerate(line):
            if not _repeats(found, line, number):
                worst = sorted(found[cable], key=lambda end: WORSE.index(end.report.why))
                rule = SENSE if _sense(view, cable) else _rule(worst)
                yield Overdrawn(rule, (cable,), _nodes(view, cable), worst[0].cause.path, ends=tuple(worst))


WORSE = ("bare", "rating", "sum", "asked", "limited")


def _rule(met: Iterable[End]) -> str:
    """Missing where nothing stands between it and a source without limit, or no device at all."""
    whys = {end.report.why for end in met}
    stands = any(end.report.why in ("rating", "sum") or end.report.why == "asked" and end.report.flow.held < math.inf
                 for end in met)
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


def _repeats(found: dict[str, list[End]], line: list[str], number: int) -> bool:
    """Whether another conductor of the line already says the same of the same device."""
    own = found[line[number]]
    devices = {device for end in own for device in end.cause.devices[:1]}
    if not devices or any(end.report.why == "bare" for end in own):
        return False
    for place, other in enumerate(line):
        ahead = {end.ahead.node for end in found[other] if end.ahead}
        same = {device for end in found[other] for device in end.cause.devices[:1]}
        if place != number and devices <= ahead or place < number and devices <= same:
            return True
    return False
