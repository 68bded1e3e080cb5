"""How the rules on protection speak of conductors, devices, currents and distances."""

from __future__ import annotations

from dataclasses import replace
from math import floor

from diagrammer.circuit.carrying import Carrying, Limit
from diagrammer.circuit.protection import End
from diagrammer.circuit.protection_ahead import Lengths
from diagrammer.circuit.protection_away import MICRON, reach
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.thinnest import allowed
from diagrammer.circuit.view import node_of
from diagrammer.electrics.protection import ratings
from diagrammer.electrics.rounding import above
from diagrammer.rules.wording import joined, name, number
from diagrammer.text.finding import Finding

SORTS = ("with a bare conductor between", "within a sheath throughout", "within a sheath throughout, from a battery",
         "from an inlet")
MILLIMETRE = 0.001  # [m]


def amps(value: float) -> str:
    return f"{value / 1000:.3g} kA" if value >= 10_000 else f"{number(value)} A"


def with_way(found: Finding, more: str = "") -> Finding:
    """The finding with the way from the source to the fault, and `more`, in its reason."""
    way = f"The way from the source: {', '.join(found.path)}." if found.path else ""
    return replace(found, reason=" ".join(part for part in (found.reason, way, more) if part))


def metres(value: float) -> str:
    return f"{round(value, 3):g} m"


def device(survey: Survey, one: str) -> str:
    """Such as "200 A fuse `F1`"."""
    node = survey.system.nodes[one]
    rating = node.get("rating")
    return f"{amps(rating)} {node.kind.name} {name(one)}" if rating else f"{node.kind.name} {name(one)}"


def near(end: End) -> str:
    """The node at which the current enters the conductor."""
    return name(node_of(end.report.entry))


def place(survey: Survey, end: End, to: str = "") -> str:
    """Where a device may stand, such as "`stud`, or at most 0.078 m from it"."""
    left = spare(survey, end)
    return f"{near(end)}, or {to}at most {metres(left)} from it" if left else near(end)


def spare(survey: Survey, end: End) -> float:
    """[m] of bare conductor, in whole millimetres, that may follow where the current enters: what lies before counts."""
    gone = max(0.0, *(way.length for way in end.report.away.ways))
    return max(0, floor((reach(survey.system.practice).bare - gone + MICRON) / MILLIMETRE)) * MILLIMETRE


def far(end: End) -> str:
    wire = end.report.piece.wire
    return name(node_of(wire.b if end.report.entry == wire.a else wire.a))


def when(end: End) -> str:
    """In which positions, where that matters."""
    told = [f"{name(one)} at {position}" for one, position in end.positions if not one.startswith("interlock ")]
    return f" with {joined(told)}" if told else ""


def smaller(limit: Limit | None) -> str:
    """The largest device that is made and may protect a conductor, such as "a 35 A device"."""
    if limit is None:
        return ""
    fitting = [rating for rating in ratings("standard") if not above(rating, limit.one)]
    return f"a device of at most {amps(fitting[-1])}" if fitting else ""


def thicker(survey: Survey, end: End, let: float, several: bool = False) -> str:
    """The smallest size made that the devices standing may protect; "" where none is large enough."""
    wire = end.report.piece.wire
    if wire.wire.size is None:
        return ""
    carrying = Carrying(survey.start)
    for one in allowed(survey.system, wire):
        limit = carrying.of_size(one, wire, end.volts)
        if limit and not above(let, limit.several if several else limit.one):
            return replace(wire.wire, size=one).label
    return ""


def distance(survey: Survey, end: End) -> tuple[float, float, str]:
    """How far away the device on the line stands, the limit that breaks [m], and of which sort."""
    lengths = (way.length for way in end.ahead.away.ways)
    return max(zip(lengths, reach(survey.system.practice).most, SORTS), key=lambda one: one[0] - one[1])


def undecided(survey: Survey, end: End) -> bool:
    """Whether only the division of a run, which is not said, makes it too far."""
    if end.ahead is None or not end.ahead.small:
        return False
    length, limit, _ = distance(survey, end)
    return length - sum(run.length for run in Lengths(survey.system).undecided(end.ahead.wires)) <= limit + MICRON
