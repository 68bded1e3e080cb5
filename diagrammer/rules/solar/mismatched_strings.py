"""Strings of unlike voltage are joined in parallel.

Why: they run at one voltage that suits neither, so much of the sun is lost, and in part shade the one feeds the
other.

Fix: give every string the same modules in the same number, or each sort of string a controller of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.arrays import Array, arrays
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import joined, name
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice: voltages within 5 %",)

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  combiner-return: {kind: bar, rating: 50 A}
  combiner: {kind: bar, rating: 50 A, pair: combiner-return}
  front: {kind: pv, series: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  rear: {kind: pv, series: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 50 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: front -> combiner, wire: 10 AWG 4 m}
  - {feed: rear -> combiner, wire: 10 AWG 4 m}
  - {feed: combiner -> switch 2-pole 40 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 50 A/panel, wire: 6 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  combiner-return: {kind: bar, rating: 50 A}
  combiner: {kind: bar, rating: 50 A, pair: combiner-return}
  front: {kind: pv, series: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  rear: {kind: pv, series: 2, power: 180 W, voc: 21.9 V, vmp: 18 V, isc: 10.5 A, imp: 10 A}
# ^^^^ mismatched-strings: `front` works at 40.8 V and `rear` at 36 V, but both are joined to `sun`
  sun: {kind: solar charger, type: mppt, output: 50 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: front -> combiner, wire: 10 AWG 4 m}
  - {feed: rear -> combiner, wire: 10 AWG 4 m}
  - {feed: combiner -> switch 2-pole 40 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 50 A/panel, wire: 6 AWG 1 m}
"""
ALIKE = 0.05  # relative: within this two voltages are one


def check(survey: Survey) -> Iterator[Finding]:
    for array in arrays(survey.cleared):
        for group in array.side_by_side():
            highest = max(group, key=lambda one: one[1])
            low = next((one for one in group if one[1] < highest[1] * (1 - ALIKE - 1e-9)), None)
            if low is not None:
                yield _finding(survey, array, highest, low)


def _finding(survey: Survey, array: Array, highest: tuple[str, float], lowest: tuple[str, float]) -> Finding:
    (first, most), (second, low) = highest, lowest
    parts = joined([f"{name(first)} works at {show(most, 'V')}", f"{name(second)} at {show(low, 'V')}"])
    fact = Fact("mismatched-strings", nodes=(second, first, array.taker.name))
    return finding(__name__, survey, fact, f"{parts}, but both are joined to {name(array.taker.name)}")
