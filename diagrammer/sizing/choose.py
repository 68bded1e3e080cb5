"""The smallest standard device and conductor that pass every check.

A first choice comes from the current and the drop of each line by itself; then the product's own
rules are asked, and what they find wrong with something that was chosen makes that one step larger.
So what is written passes the checks, or the rest that no step mends is said.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from diagrammer.circuit.carrying import Limit
from diagrammer.circuit.loading import Current
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.thinnest import thinnest
from diagrammer.electrics import drop
from diagrammer.electrics.conductor import area
from diagrammer.electrics.protection import next_rating, ratings
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Conductor, System
from diagrammer.quantity import Size, awg, mm2, show
from diagrammer.rules import RULES
from diagrammer.sizing.unknown import Choice, Unknown
from diagrammer.text.finding import Finding

ROUNDS = 40
THICKER = ("voltage-drop", "conductor-overloaded", "protection-too-large", "protection-will-not-clear", "below-minimum-size",
           "thin-return", "missing-protection")
LARGER = ("protection-too-small",)
SIZES = {
    "AWG": tuple(awg(n) for n in (18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3)),
    "mm²": tuple(mm2(s) for s in (0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150)),
}


@frozen
class Sized:
    """The choice, and the findings about what was chosen that no larger standard part mends."""

    choice: Choice
    left: tuple[Finding, ...]


def choose(system: System) -> Sized:
    """Sizes and ratings for all that the system leaves out."""
    unknown = Unknown(system)
    choice = _first(system, unknown)
    for _ in range(ROUNDS):
        findings = _findings(choice.applied(system))
        if not any([_mend(unknown, choice, one) for one in findings]):
            return Sized(choice, tuple(one for one in findings if _about(unknown, one)))
    return Sized(choice, tuple(one for one in findings if _about(unknown, one)))


def _findings(system: System) -> list[Finding]:
    """What the rules that size and rating decide have to say."""
    survey = Survey(system)
    return [one for name in (*THICKER, *LARGER) for one in RULES[name].check(survey)]


def _first(system: System, unknown: Unknown) -> Choice:
    """By the current of each line alone: a device above it, a conductor for that device and the drop."""
    choice, survey = Choice(), Survey(system)
    circuits = {circuit.name: circuit for circuit in system.circuits}
    for name, wires in unknown.lines.items():
        amps = _asked(survey, wires)
        devices = [node for node in unknown.devices.values() if unknown.line_of.get(node.name) == name]
        for node in devices:
            _rate(choice, node.name, amps, node.get("type") or "")
        given = [system.nodes[stop.node].get("rating") for leg in circuits[name].legs for stop in leg.stops
                 if system.nodes[stop.node].kind.name in ("fuse", "breaker", "rcbo")]
        device = max((rating for rating in (*given, *(choice.ratings[node.name] for node in devices)) if rating), default=0.0)
        choice.sizes[name], choice.why[name] = _size(survey, wires, amps, device)
    for name, node in unknown.devices.items():
        if name not in choice.ratings:
            wires = [one for one in system.conductors if one.circuit == unknown.line_of.get(name) and one.core not in ("N", "earth")]
            _rate(choice, name, _asked(survey, wires), node.get("type") or "")
    return choice


def _asked(survey: Survey, wires: Sequence[Conductor]) -> float:
    """[A] the worst state asks of a line; of outlets their rating, since anything may be plugged in."""
    flows = (survey.loading.conductor(one) for one in wires)
    nodes = {end.partition(".")[0] for one in wires for end in (one.a, one.b)}
    plugs = (survey.system.nodes[name]["rating"] for name in nodes if survey.system.nodes[name].kind.name == "outlet")
    return max((*(flow.amps if isinstance(flow, Current) else 0.0 for flow in flows), *plugs), default=0.0)


def _rate(choice: Choice, name: str, amps: float, body: str) -> None:
    body = body if body in _bodies() else ""
    choice.ratings[name] = next_rating(amps, body) or max(ratings(body))
    choice.why[name] = f"{show(amps, 'A')} flow at most"


def _bodies() -> tuple[str, ...]:
    from diagrammer.tables.load import load

    return tuple({row["body"]: None for row in load("ratings")})


def _size(survey: Survey, wires: Sequence[Conductor], amps: float, device: float) -> tuple[Size, str]:
    """The thinnest conductor for the device, the current and the drop of the line by itself."""
    system = survey.system
    sizes = SIZES["mm²" if system.practice == "iso" else "AWG"]
    like = next((one for one in wires if one.core not in ("N", "earth")), wires[0])
    volts = survey.voltages.nominal(like.a) or survey.voltages.nominal(like.b) or 12.0
    length = sum(one.length if one.length is not None else 0.0 for one in wires if not one.core or one.core in ("L", "L1", "N"))
    length = length or sum(run.length for run in system.runs.values() if run.id.startswith(f"{like.circuit}:"))
    critical = any(system.nodes[end.partition(".")[0]].get("critical") or system.nodes[end.partition(".")[0]].kind.name == "panel"
                   for one in wires for end in (one.a, one.b))
    most = drop.limit(system.practice, critical, ac=bool(like.core)) * volts
    least = max((area(one) for wire in wires if (one := thinnest(system, wire))), default=0.0)
    thinner = ""
    for size in sizes:
        if area(size) < least:
            continue
        limit = survey.carrying.of_size(size, like, volts)
        lost = drop.drop(size, amps, length, system.practice, ac=bool(like.core), parallel=like.wire.parallel,
                         material=like.wire.material)
        wrong = _wrong(limit, amps, device, lost / volts, most / volts)
        if not wrong:
            carries = f"carries {show(limit.ampacity.amps, 'A')}, asked {show(max(amps, 0.0), 'A')}"
            return size, f"{carries}; {thinner or 'the thinnest that may be used'}"
        thinner = f"{size.label} {wrong}"
    return sizes[-1], f"the thickest there is, but {thinner}"


def _wrong(limit: Limit | None, amps: float, device: float, lost: float, most: float) -> str:
    """Why a conductor will not do: its ampacity, what may protect it, or its drop, shares of the voltage; "" if it does."""
    if limit is None:
        return "has no published ampacity"
    if limit.ampacity.amps < amps:
        return f"carries only {show(limit.ampacity.amps, 'A')}"
    if limit.one < device:
        return f"may stand behind {show(limit.one, 'A')} at most, not behind {show(device, 'A')}"
    return f"would lose {100 * lost:.3g} %, more than {100 * most:g} %" if amps and lost > most else ""


def _about(unknown: Unknown, one: Finding) -> list[str]:
    """The lines and devices of ours that a finding speaks of."""
    lines = [cable.rpartition(":")[0] for cable in one.conductors]
    return [name for name in (*lines, *one.subjects, *one.nodes) if name in unknown.lines or name in unknown.devices]


def _mend(unknown: Unknown, choice: Choice, one: Finding) -> bool:
    """One step larger for what a finding blames; whether there was a step."""
    names = list(dict.fromkeys(_about(unknown, one)))
    if one.rule in LARGER:
        return any(_next_rating(unknown, choice, name, one) for name in names if name in unknown.devices)
    return any(_next_size(choice, name, one) for name in _thinnest_first(choice, names) if name in unknown.lines)


def _thinnest_first(choice: Choice, names: Iterable[str]) -> list[str]:
    return sorted((name for name in names if name in choice.sizes), key=lambda name: _place(choice.sizes[name]))


def _place(size: Size) -> int:
    return SIZES[size.system].index(size)


def _next_size(choice: Choice, name: str, one: Finding) -> bool:
    ladder, place = SIZES[choice.sizes[name].system], _place(choice.sizes[name])
    if place + 1 >= len(ladder):
        return False
    choice.sizes[name] = ladder[place + 1]
    choice.why[name] = f"{one.rule}, one size thinner: {one.message.replace('`', '')}"
    return True


def _next_rating(unknown: Unknown, choice: Choice, name: str, one: Finding) -> bool:
    body = unknown.devices[name].get("type") or ""
    made = [rating for rating in ratings(body if body in _bodies() else "standard") if rating > choice.ratings[name]]
    if not made:
        return False
    choice.ratings[name] = made[0]
    choice.why[name] = f"{one.rule}, one rating smaller: {one.message.replace('`', '')}"
    return True
