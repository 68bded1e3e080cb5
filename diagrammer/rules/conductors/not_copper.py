"""A conductor is of aluminium where the practice knows copper only.

Why: aluminium creeps under a screw, breaks where it is shaken and corrodes beside copper and salt; the joint grows hot.
The tables of the practice hold for copper, so what it may carry and what may protect it is not known.

Fix: take stranded copper, tinned where it is damp.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.thinnest import thinnest
from diagrammer.circuit.view import Fact, node_of
from diagrammer.rules.conductors._words import between
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("33 CFR 183.425(a): insulated, stranded copper", "ABYC E-11 and ISO 10133 7 (from memory)",
           "NEC Table 310.16 has aluminium from 12 AWG")
GOOD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   {hops: [6 AWG 0.5 m, 0.5 m], material: tinned}
  - {feed: panel/fuse blade 3 A -> lamp, wire: 16 AWG 3 m}
"""
BAD = """
practice: abyc
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 100 Ah, short circuit: 900 A, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  lamp:   {kind: load, voltage: 12 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse strip 60 A -> switch battery 100 A -> panel
    return: bank -> meter -> return-bar
    wire:   [6 AWG 0.5 m, 0.5 m]
  - {feed: panel/fuse blade 3 A -> lamp, wire: {size: 10 AWG, length: 3 m, material: aluminium}}
  #              ^^^^^^^^^^^^^^^^^^^^^^ not-copper: the 10 AWG from `F2` to `lamp` is of aluminium, for which abyc has no...
"""


def check(survey: Survey) -> Iterator[Finding]:
    practice, met = survey.system.practice, set()
    for wire in survey.system.conductors:
        if wire.wire.material == "aluminium" and not thinnest(survey.system, wire) and wire.circuit not in met:
            met.add(wire.circuit)
            yield finding(
                __name__, survey, Fact("not-copper", (wire.cable,), (node_of(wire.a), node_of(wire.b))),
                f"{between(wire)} is of aluminium, for which {practice} has no table: what it may carry is not judged",
            )
