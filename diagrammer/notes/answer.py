"""The question a customer asks, read and answered in words."""

from __future__ import annotations

import re
from collections.abc import Sequence

from diagrammer import quantity
from diagrammer.circuit.question import Answer, Question, Stop
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node, System
from diagrammer.quantity import show

_PART = re.compile(r"(start\s+)?([0-9][0-9./]*)\s*([^\W\d]+)")


class NoQuestion(ValueError):
    """A text that asks nothing that can be answered; the message says what is wanted."""


@frozen
class Asked:
    """`volts`: of a dc thing [V], None for one with a mains plug."""

    question: Question
    volts: float | None = None


def read(text: str) -> Asked:
    """A question such as `kettle 1500 W 5 min`, `pump 60 W 12 V 2 h`, `saw 1.2 kW start 3 kW 10 min`.

    Raises NoQuestion.
    """
    found: dict[str, float] = {}
    for start, number, unit in _PART.findall(text):
        try:
            one = quantity.measure(f"{number} {unit}", "power", "duration", "voltage", "current")
        except quantity.Unreadable as wrong:
            raise NoQuestion(str(wrong)) from wrong
        found["start" if start else one.dimension] = one.value
    if "power" not in found and {"current", "voltage"} <= set(found):
        found["power"] = found["current"] * found["voltage"]
    if "power" not in found:
        raise NoQuestion("a power is wanted, as `kettle 1500 W 5 min`; a dc thing has its voltage too: `pump 60 W 12 V`")
    name = " ".join(_PART.sub(" ", text).split()) or "this"
    volts = found.get("voltage")
    dc = volts if volts is not None and volts < 60 else None
    return Asked(Question(name, found["power"], found.get("duration", 0.0), found.get("start", 0.0)), dc)


def tell(system: System, question: Question, place: Node, alone: Sequence[Answer], together: Sequence[Answer]) -> str:
    """The answers at one place: the thing by itself, and with everything else on."""
    lines = [f"{question.what}, {show(question.watts, 'W')}{_for(question)}, at {place.label}:"]
    for one, all_on in zip(alone, together, strict=True):
        lines.append(f"  {all_on.state.name}")
        lines.append(f"    by itself          {_one(system, question, one)}")
        lines.append(f"    with all else on   {_one(system, question, all_on)}")
    return "\n".join(lines)


def _for(question: Question) -> str:
    return f" for {_time(question.hours)}" if question.hours else ""


def _time(hours: float) -> str:
    return f"{hours * 60:.0f} min" if hours < 1.5 else f"{hours:.1f} h"


def _one(system: System, question: Question, answer: Answer) -> str:
    if answer.dead:
        return "no: nothing supplies that place"
    if answer.collapse:
        return f"no: the voltage gives way at {answer.collapse.load}, most of it is lost in {answer.collapse.branch}"
    if answer.stops:
        return "no: " + "; ".join(_stop(system, stop) for stop in answer.stops[:3])
    lasts = "it is supplied from outside" if answer.hours is None else f"{answer.bank} lasts {_time(answer.hours)} from full"
    if answer.share > 1:
        return f"not so long: {lasts}"
    used = f", this takes {answer.share * 100:.0f} % of what it gives" if answer.hours is not None and question.hours else ""
    return f"yes, at {show(answer.volts, 'V')}; {lasts}{used}"


_WORDS = {"rating": "is rated", "power": "gives", "discharge": "may give", "surge": "gives for a moment", "ampacity": "may carry"}


def _stop(system: System, stop: Stop) -> str:
    node = system.nodes.get(stop.subject)
    name = f"conductor of {stop.subject}"
    if node:
        name = f"the {node.label}" if node.label == node.kind.name else f"{node.kind.name} {node.label}"
    if stop.what == "start":
        return f"the start of {show(stop.asked, 'W')} pulls the voltage down"
    return f"{name} {_WORDS[stop.what]} {show(stop.limit, stop.unit)}, this asks {show(stop.asked, stop.unit)}"
