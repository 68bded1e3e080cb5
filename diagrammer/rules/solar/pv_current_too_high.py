"""The array's short-circuit current is above what its controller bears.

Why: a controller that shorts the array, or is wired to it in reverse, then carries more than its parts bear and
can burn.

Fix: take a controller for a larger current, or divide the strings between two.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.arrays import Array, arrays
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics import solar
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = ("NEC 690.8(A)(1): 1.25 times the rated short-circuit current", "the controller's data sheet")

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, parallel: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V, max pv current: 26 A}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 40 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, parallel: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V, max pv current: 25 A}
# ^^^ pv-current-too-high: `sun` bears 25 A, but `roof` can drive 25.5 A: 1.25 times its short-circuit current of 20.4 A
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 40 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    for array in arrays(survey.cleared):
        limit, short = array.taker.get("max pv current"), array.short_circuit()
        amps = solar.largest_current(short)
        if limit is not None and amps > limit * (1 + SAME):
            yield _finding(survey, array, limit, amps, short)


def _finding(survey: Survey, array: Array, limit: float, amps: float, short: float) -> Finding:
    pv = [node.name for node in array.nodes]
    rated = f"1.25 times {verb(pv, 'its', 'their')} short-circuit current of {show(short, 'A')}"
    message = f"{name(array.taker.name)} bears {show(limit, 'A')}, but {names(pv)} can drive {show(amps, 'A')}: {rated}"
    return finding(__name__, survey, Fact("pv-current-too-high", nodes=(array.taker.name, *pv)), message)
