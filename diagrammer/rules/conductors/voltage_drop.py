"""More voltage is lost on the way to a load and back than the practice allows.

Why: lamps are dim, motors slow and hot, electronics switch off, and converters stop early, the bank still half full.

Fix: take a thicker or shorter conductor where most is lost, or a higher voltage.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from diagrammer.circuit.drops import Drop
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.thinnest import allowed
from diagrammer.circuit.view import Fact
from diagrammer.electrics.drop import drop
from diagrammer.electrics.rounding import above
from diagrammer.netlist.model import Conductor
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import number
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = (
    "ABYC E-11 11.14.2.6: 3 % to what is critical and to panels, 10 % to the rest, by 10.75 I L / CM (quoted)",
    "ISO 10133 4.8 and Annex A: likewise, by 0.0164 I L / S",
    "NEC 210.19(A) and 215.2(A), informational notes: 3 % and 5 %",
    "IEC 60364-5-52 Annex G, for ac under iso",
)
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 60 W, critical: yes, duty: light}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 10 A -> lamp, wire: 10 AWG 6 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 200 Ah, short circuit: 6 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 60 W, critical: yes, duty: light}
circuits:
  - name:   main
    feed:   bank/fuse class-t 200 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [2/0 AWG 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 10 A -> lamp, wire: 14 AWG 6 m}
  #                 ^^^^^^^^^^^^^^^^^^^^^^^^^ voltage-drop: `lamp` loses 4.71 % of 12 V on 14 m there and back (0.566...
"""
ROUNDING = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    excess: dict[str, float] = {}  # [V] by the line blamed already: what follows from it is its symptom
    found: dict[str, list[tuple[Drop, float]]] = {}
    for one in _panels_first(survey):
        over = one.over - sum(excess.get(line, 0.0) for line in one.lines)
        if over > ROUNDING * one.base:
            line = max(one.lines, key=one.lines.get)
            found.setdefault(line, []).append((one, over))
            if survey.system.nodes[one.node].kind.name == "panel":
                excess[line] = max(over, excess.get(line, over))
    for line, drops in found.items():
        yield _finding(survey, line, drops)


def _panels_first(survey: Survey) -> list[Drop]:
    """A panel's feeder is judged before what hangs on the panel, the nearest panel first."""
    return sorted(survey.drops.all.values(),
                  key=lambda one: (survey.system.nodes[one.node].kind.name != "panel", len(one.lost)))


def _finding(survey: Survey, line: str, drops: list[tuple[Drop, float]]) -> Finding:
    nodes = survey.system.nodes
    one, over = max(drops, key=lambda pair: (nodes[pair[0].node].kind.name == "panel", pair[1] / pair[0].base))
    wire = max((pair for pair in one.lost if pair[0].circuit == line), key=lambda pair: round(pair[1], 6))[0]
    others = f", and {len(drops) - 1} more lose too much there" if len(drops) > 1 else ""
    loses = "would lose at least" if one.least else "loses"
    losers = dict.fromkeys((one.node, *(other.node for other, _ in drops)))
    return finding(
        __name__, survey, Fact("voltage-drop", (wire.cable,), tuple(losers), _path(one)),
        f"`{one.node}` {loses} {number(100 * one.volts / one.base)} % of {show(one.base, 'V')} on "
        f"{show(one.length, 'm')} there and back ({show(one.volts, 'V')}); {number(100 * one.share)} % is the most by "
        f"{survey.system.practice}{others}",
        fix=_larger(survey, wire, one.lines[line], over),
    )


def _path(one: Drop) -> tuple[str, ...]:
    return tuple(dict.fromkeys(end.partition(".")[0] for wire, _ in one.lost for end in (wire.a, wire.b)))


def _larger(survey: Survey, wire: Conductor, lost: float, over: float) -> str:
    """The size with which the line where most is lost would lose little enough."""
    if over >= lost:
        return "Take thicker conductors all the way, or shorten it."
    own, practice, ac, material = wire.wire.size, survey.system.practice, bool(wire.core), wire.wire.material
    most = drop(own, 1, 1, practice, ac=ac, material=material) * (lost - over) / lost
    larger = next((one for one in allowed(survey.system, wire)
                   if not above(drop(one, 1, 1, practice, ac=ac, material=material), most)), None)
    if larger is None:
        return ""
    return f"Take {replace(wire.wire, size=larger).label} or thicker for the line `{wire.circuit}`, or shorten it."
