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
        for cable in _telling(found, line):
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
    ports = {view.system.terminals[stop.enter or stop.leave].port for stop in stops}
    fused = any(inner.form == "overcurrent" for stop in stops for inner in _inside(view, stop.node))
    return not fused and not ports.isdisjoint(SENSE_PORTS)


def _inside(view: View, name: str) -> tuple[Inner, ...]:
    node = view.system.nodes[name]
    return node.kind.inside(node.values)


def _nodes(view: View, cable: str) -> tuple[str, ...]:
    wire = view.cables[cable]
    return tuple(dict.fromkeys(view.system.terminals[end].node for end in (wire.a, wire.b)))


def _telling(found: dict[str, list[End]], line: list[str]) -> list[str]:
    """The conductors of a line, less those of which another one that is told says the same of the same device."""
    told, needed = list(line), set()
    for cable in line:
        by = "" if cable in needed else _told_by(found, told, cable)
        if by:
            told.remove(cable)
            needed.add(by)
    return told


def _told_by(found: dict[str, list[End]], told: list[str], cable: str) -> str:
    """The conductor that tells of the devices of another: as its own device, before it, or as the one further along."""
    devices, before = _devices(found[cable]), True
    if not devices or any(end.report.why == "bare" for end in found[cable]):
        return ""
    for other in told:
        before = before and other != cable
        along = {end.ahead.node for end in found[other] if end.ahead and end.report.why in ("bare", "rating")}
        if other != cable and devices <= along or before and devices <= _devices(found[other]):
            return other
    return ""


def _devices(ends: Iterable[End]) -> set[str]:
    """The device that counts most at each end."""
    return {end.cause.devices[0] for end in ends if end.cause.devices}
