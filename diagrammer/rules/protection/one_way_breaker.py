"""A polarised breaker stands the wrong way round, or where current flows both ways.

Why: its magnets blow the arc the wrong way when the current is reversed; it does not go out and the breaker burns.

Fix: turn it so that 1 faces what gives the current, or take a breaker that is not polarised where both sides can give.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.circuit.zones import Way
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("IEC 60898-2: terminals of dc breakers marked with polarity", "IEC 60947-2", "common practice")
GOOD = """
practice: iso
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
  roof:   {kind: pv, power: 100 W, voc: 24 V, isc: 6 A, vmp: 20 V, imp: 5.5 A, series: 2}
  sun:    {kind: solar charger, type: mppt, max pv voltage: 75 V, output: 20 A}
circuits:
  - name:   main
    feed:   bank/fuse strip 50 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [10 mm² 0.5 m, 0.5 m]
  - {feed: panel/breaker polarised 10 A 80 V 2 kA -> pump, wire: 2.5 mm² 3 m}
  - {feed: roof -> breaker 2-pole polarised 16 A 250 V -> sun.pv, wire: [4 mm² 3 m, 1 m]}
  - {feed: sun -> breaker 25 A 80 V 2 kA/panel, wire: 6 mm² 1 m}
"""
BAD = """
practice: iso
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 12 V, power: 60 W}
  Q-pump: {kind: breaker, polarised: yes, rating: 10 A, voltage: 80 V, breaking: 2 kA}
# ^^^^^^ one-way-breaker: the polarised 10 A breaker `Q-pump` stands the wrong way round: what gives the current is...
  roof:   {kind: pv, power: 100 W, voc: 24 V, isc: 6 A, vmp: 20 V, imp: 5.5 A, series: 2}
  sun:    {kind: solar charger, type: mppt, max pv voltage: 75 V, output: 20 A}
circuits:
  - name:   main
    feed:   bank/fuse strip 50 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [10 mm² 0.5 m, 0.5 m]
  - {feed: panel/Q-pump.2 -> pump, wire: 2.5 mm² 3 m}
  - {feed: roof -> breaker 2-pole polarised 16 A 250 V -> sun.pv, wire: [4 mm² 3 m, 1 m]}
  - {feed: sun -> breaker polarised 25 A 80 V 2 kA/panel, wire: 6 mm² 1 m}
  #               ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ one-way-breaker: the 25 A breaker `Q3` is polarised, and current...
"""


def check(survey: Survey) -> Iterator[Finding]:
    met: set[str] = set()
    for way in survey.zones.ways:
        if way.node.get("polarised") and not way.ac and way.node.name not in met and (wrong := _wrong(survey, way)):
            met.add(way.node.name)
            message, fix = wrong
            yield finding(__name__, survey, Fact("one-way-breaker", nodes=(way.node.name,)), message, fix=fix)


def _wrong(survey: Survey, way: Way) -> tuple[str, str] | None:
    """Message and fix, None where 1 faces all that gives. Terminal a of a way is the odd one: in at 1 out at 2."""
    before, behind = survey.sides.of(way.key)
    name = device(survey, way.node.name)
    if before.gives and behind.gives:
        return (f"the {name} is polarised, and current flows through it both ways: on either side something gives",
                "Take a breaker that is not polarised, or a fuse.")
    if behind.gives:
        return (f"the polarised {name} stands the wrong way round: what gives the current is at its terminal 2",
                f"Turn {way.node.name} round, so that 1 faces what gives the current.")
    return None
