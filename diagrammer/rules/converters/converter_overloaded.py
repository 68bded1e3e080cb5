"""The loads together, or one load's start, ask more of a dc converter than it gives.

Why: it limits its current or switches off, the voltage falls, and everything on its panel stops at once.

Fix: take a larger converter, divide its loads between two, or say under `states` what never runs together.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.demand import FEEDING, Demand, Part, at_once, demand
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("the converter's data sheet", "common practice: of loads that run for moments one at a time")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 25.6 V, capacity: 100 Ah}
  step-down: {kind: converter, voltage: 12 V, output: 20 A, input voltage: 18 .. 36 V}
  panel: {kind: panel, rating: 30 A}
  fridge: {kind: load, voltage: 12 V, power: 60 W}
  heater: {kind: load, voltage: 12 V, power: 120 W}
circuits:
  - {feed: bank/fuse 20 A -> switch battery 100 A -> step-down.in, wire: [10 AWG 1 m, 1 m]}
  - {feed: step-down -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 10 A -> fridge, wire: 12 AWG 2 m}
  - {feed: panel/fuse 15 A -> heater, wire: 12 AWG 2 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 25.6 V, capacity: 100 Ah}
  step-down: {kind: converter, voltage: 12 V, output: 12 A, input voltage: 18 .. 36 V}
# ^^^^^^^^^ converter-overloaded: `fridge` and `heater` take 15 A together, but `step-down` gives 12 A
  panel: {kind: panel, rating: 30 A}
  fridge: {kind: load, voltage: 12 V, power: 60 W}
  heater: {kind: load, voltage: 12 V, power: 120 W}
circuits:
  - {feed: bank/fuse 20 A -> switch battery 100 A -> step-down.in, wire: [10 AWG 1 m, 1 m]}
  - {feed: step-down -> panel, wire: 10 AWG 1 m}
  - {feed: panel/fuse 10 A -> fridge, wire: 12 AWG 2 m}
  - {feed: panel/fuse 15 A -> heater, wire: 12 AWG 2 m}
"""
MARGIN = 1.0001  # a limit that is met to the last digit is not passed


def check(survey: Survey) -> Iterator[Finding]:
    asked, met = demand(survey.cleared), set()
    for node in survey.cleared.system.nodes.values():
        if node.kind.name != "converter" or node.name in met:
            continue
        units = list(asked.side_by_side(node))
        met.update(one.name for one in units)
        if not _helped(survey, asked, units):
            parts = asked.behind([out for one in units for out in asked.outputs(one)])
            yield from _over(survey, units, parts)


def _helped(survey: Survey, asked: Demand, units: list[Node]) -> bool:
    """Whether a battery, charger or other source stands on the output too."""
    reached = asked.paths.reach([out for one in units for out in asked.outputs(one)], FEEDING)
    own = {one.name for one in units}
    return any(terminal in reached for name, give in survey.cleared.gives if name not in own
               for terminal in survey.cleared.hot(name, give.port))


def _over(survey: Survey, units: list[Node], parts: tuple[Part, ...]) -> Iterator[Finding]:
    unit, volts, gives = [one.name for one in units], units[0]["voltage"], sum(one["output"] for one in units)
    most = at_once(survey.study, parts, lambda part: part.amps(volts))
    limit = f"but {names(unit)} {verb(unit, 'gives', 'give')} {show(gives, 'A')}"
    if most.value > gives * MARGIN:
        state = f" ({most.state})" if survey.system.states else ""
        message = (f"{names(most.loads)} {verb(most.loads, 'takes', 'take')} {show(most.value, 'A')}"
                   f"{' together' if len(most.loads) > 1 else ''}{state}, {limit}")
        yield finding(__name__, survey, Fact("converter-overloaded", nodes=(*unit, *most.loads)), message)
        return
    for part in parts:
        start = part.start * part.factor / volts
        if start > gives * MARGIN:
            message = f"{name(part.load.name)} takes {show(start, 'A')} while it starts, {limit}"
            yield finding(__name__, survey, Fact("converter-overloaded", nodes=(*unit, part.load.name)), message)
