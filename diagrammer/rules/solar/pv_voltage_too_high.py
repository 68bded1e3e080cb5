"""The array's open-circuit voltage on the coldest day is above the limit of its controller.

Why: a clear cold morning destroys the controller at once, and a burst part can put the whole array on the bank
and burn.

Fix: put fewer modules in series and more side by side, or take a controller for a higher voltage.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.arrays import Array, arrays
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "NEC 690.7(A)(1): by the module's own coefficient",
    "NEC Table 690.7(A) where that is not known (from memory)",
    "IEC 62548, from memory",
)

GOOD = """
site: {coldest: -20 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, series: 3, voc drift: -0.28 %/°C, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""

BAD = """
site: {coldest: -20 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, series: 4, voc drift: -0.28 %/°C, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
# ^^^ pv-voltage-too-high: `sun` bears 100 V, but `roof` reaches 111 V open at -20 °C
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    coldest = survey.system.site.coldest
    for array in arrays(survey.cleared):
        limit, volts = array.taker["max pv voltage"], array.open_voltage(coldest)
        if volts > limit * (1 + SAME):
            yield _finding(survey, array, limit, volts, coldest)


def _finding(survey: Survey, array: Array, limit: float, volts: float, coldest: float | None) -> Finding:
    pv = [node.name for node in array.nodes]
    by_table = coldest is not None and any(node.get("voc drift") is None for node in array.nodes)
    at = "at 25 °C, and more in the cold" if coldest is None else f"at {coldest:g} °C"
    reach = f"{names(pv)} {verb(pv, 'reaches', 'reach')} {show(volts, 'V')} open {at}"
    message = (f"{name(array.taker.name)} bears {show(limit, 'V')}, but {reach}"
               f"{' by the NEC table, its own drift is not stated' if by_table else ''}")
    return finding(__name__, survey, Fact("pv-voltage-too-high", nodes=(array.taker.name, *pv)), message)
