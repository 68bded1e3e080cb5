"""A short circuit right behind the device draws more than the device can break.

Why: a fuse or breaker that cannot break the current goes on burning as an arc, bursts, or welds shut.

Fix: put a current-limiting fuse of a high breaking capacity at the battery, class T say, and take branch devices that
break what is left there.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.breaking import Capacity, Prospective
from diagrammer.circuit.mains_faults import Supply
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.circuit.zones import Way
from diagrammer.electrics.fault import least_breaking, least_breaking_ac
from diagrammer.electrics.protection import single
from diagrammer.electrics.rounding import above
from diagrammer.quantity import show
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import names, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "IEC 60364-4-43 434.5.1: not below the prospective current, or coordinated with a device ahead (from memory)",
    "NEC 110.9",
    "ABYC E-11 Table V-A for breakers behind lead-acid banks of at most 500 Ah, above that the bank's rating; Table V-B "
    "for breakers on shore power (quoted)",
    "what a generator or a public supply can give where it is not stated: the table of ac faults (common practice)",
    "usual breaking capacities by body: the table of device families; a data sheet goes before them",
)
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/breaker hydraulic 15 A 10 kA -> pump, wire: 14 AWG 3 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 200 A -> switch battery 300 A -> feed-bar
  #              ^^^^^^^^^^^^^^^^ interrupt-rating-too-low: the 200 A fuse `F1` breaks 2 kA as its body usually does...
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/breaker hydraulic 15 A 10 kA -> pump, wire: 14 AWG 3 m}
"""
LOW = 32.0  # [V] where Table V-A ends
TABLED = "abyc"  # the practice whose table of breakers may count instead of what can flow (ABYC E-11 Table V-A)


def check(survey: Survey) -> Iterator[Finding]:
    behind: dict[str, list[tuple[Way, Prospective]]] = {}
    met: set[str] = set()
    for way in survey.zones.ways:
        able = survey.breaking.capacity(way)
        if able is None or way.node.name in met:
            continue
        found = survey.breaking.prospective(way)
        if found is None or not above(_needed(survey, way, found), able.value):
            usual = survey.breaking.of_mains(way, assumed=True)
            if usual and above(usual.amps, able.value):
                met.add(way.node.name)
                yield _unsaid(survey, way, usual, able)
            continue
        met.add(way.node.name)
        ahead = survey.breaking.limited_by(way)
        if ahead:
            behind.setdefault(ahead, []).append((way, found))
        else:
            yield _alone(survey, way, found, able)
    for ahead, ways in behind.items():
        yield _coordinated(survey, ahead, ways)
    if survey.system.practice == TABLED:
        yield from _by_table(survey, met)


def _needed(survey: Survey, way: Way, found: Prospective) -> float:
    """What it must break [A]: what can flow, or what ABYC's table asks of a breaker where the table counts."""
    if way.ac:
        return found.amps
    capacity, volts = survey.breaking.lead(way), survey.voltages.nominal(way.a)
    tabled = survey.system.practice == TABLED and way.node.kind.name == "breaker" and volts <= LOW
    if not tabled or not capacity or capacity > single("tabled bank"):
        return found.amps
    return min(found.amps, least_breaking(volts, float("inf"), main=survey.breaking.main(way)))


def _alone(survey: Survey, way: Way, found: Prospective, able: Capacity) -> Finding:
    name = way.node.name
    body = f" as its body usually does ({able.standard})" if able.usual else ""
    return finding(
        __name__, survey, Fact("interrupt-rating-too-low", nodes=(name,)),
        f"the {device(survey, name)} breaks {show(able.value, 'A')}{body}, but {show(found.amps, 'A')} can flow"
        f"{_guess(found, way)}",
        fix=f"Take a device that breaks {show(found.amps, 'A')} or more at this voltage, such as a class T fuse of the "
            "same rating, and state its breaking capacity in kA.",
    )


def _unsaid(survey: Survey, way: Way, found: Prospective, able: Capacity) -> Finding:
    """Where the supply says nothing and a usual one would be too much: a question."""
    supply = found.estimated[0]
    return finding(
        __name__, survey, Fact("interrupt-rating-too-low", nodes=(way.node.name,)),
        f"the {device(survey, way.node.name)} breaks {show(able.value, 'A')}; what can flow from {names(found.estimated)} is "
        f"not stated, {show(found.amps, 'A')} would be usual here",
        fix=f"Ask for the prospective short-circuit current there and state it as `short circuit` of `{supply}`, or take a "
            f"device that breaks {show(found.amps, 'A')}.",
        severity="notice",
    )


def _coordinated(survey: Survey, ahead: str, ways: list[tuple[Way, Prospective]]) -> Finding:
    """Those that only the current-limiting fuse ahead of them saves: the netlist cannot show that it does."""
    way, found = max(ways, key=lambda pair: pair[1].amps)
    able = survey.breaking.capacity(way)
    nodes = tuple(dict.fromkeys((way.node.name, *(one.node.name for one, _ in ways))))
    others = f" and {len(nodes) - 1} more" if len(nodes) > 1 else ""
    return finding(
        __name__, survey, Fact("interrupt-rating-too-low", nodes=nodes),
        f"the {device(survey, way.node.name)}{others} {verb(nodes, 'breaks', 'break')} {show(able.value, 'A')} where {show(found.amps, 'A')} "
        f"can flow{_guess(found, way)}, and {verb(nodes, 'relies', 'rely')} on the fuse `{ahead}` ahead to limit that",
        fix=f"Ask the maker whether it is tested behind `{ahead}`, or take one that breaks {show(found.amps, 'A')}.",
        severity="notice", at=way.node.place,
    )


def _guess(found: Prospective, way: Way) -> str:
    by = "from its rating" if way.ac else "from capacity and chemistry"
    return f", as estimated for {names(found.estimated)} {by}" if found.estimated else ""


def _by_table(survey: Survey, met: set[str]) -> Iterator[Finding]:
    """Breakers on a shore supply of which nothing is stated, where ABYC's table says what they must break."""
    for way in survey.zones.ways:
        able = survey.breaking.capacity(way) if way.node.kind.name == "breaker" else None
        asked = [(need, supply) for supply, _ in survey.mains_faults.reaching(way.a) if able and not supply.stated
                 and (need := _tabled(survey, way, supply)) and above(need, able.value)]
        if asked and way.node.name not in met:
            met.add(way.node.name)
            need, supply = max(asked, key=lambda one: one[0])
            yield finding(
                __name__, survey, Fact("interrupt-rating-too-low", nodes=(way.node.name,)),
                f"the {device(survey, way.node.name)} breaks {show(able.value, 'A')}; on {show(supply.node['rating'], 'A')} "
                f"shore power it must break {show(need, 'A')}",
                fix=f"Take one that breaks {show(need, 'A')}, or state the `short circuit` of `{supply.name}` if it is less.",
            )


def _tabled(survey: Survey, way: Way, supply: Supply) -> float | None:
    """[A] ABYC E-11 Table V-B."""
    if supply.node.kind.name != "shore":
        return None
    main = survey.breaking.main(way)
    return least_breaking_ac(supply.volts, len(supply.source.lines), supply.node["rating"], main=main)
