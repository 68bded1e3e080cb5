"""The array can give more than its controller passes on.

Why: what is above the controller's output is lost in the best hours; many accept that for more in the worse
ones.

Fix: nothing, if it was meant; else take a larger controller or fewer modules.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.arrays import Array, arrays
from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.givers import pv_array
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics import solar
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names
from diagrammer.text.finding import Finding

SEVERITY = "notice"
SOURCES = ("common practice",)

GOOD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, series: 2, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""

BAD = """
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, series: 3, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
# ^^^ pv-clipped: `sun` passes 30 A, but `roof` could charge the bank with 40.5 A in full sun
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""
MARGIN = 1.02  # what is lost below this share is not worth a word


def check(survey: Survey) -> Iterator[Finding]:
    for array in arrays(survey.cleared):
        bank = charge_voltage(survey.cleared.system, f"{array.taker.name}.+")
        if array.taker.kind.name != "solar charger" or not bank:
            continue
        amps = sum(_amps(array, node, bank) for node in array.nodes)
        if amps > array.taker["output"] * MARGIN:
            pv = [node.name for node in array.nodes]
            passes = f"{name(array.taker.name)} passes {show(array.taker['output'], 'A')}"
            message = f"{passes}, but {names(pv)} could charge the bank with {show(amps, 'A')} in full sun"
            yield finding(__name__, survey, Fact("pv-clipped", nodes=(array.taker.name, *pv)), message)


def _amps(array: Array, node, bank: float) -> float:
    """Current [A] into a bank at `bank` [V] that a controller without limit would make of a node's modules."""
    at = pv_array(node)
    if array.taker["type"] == "pwm":
        return solar.pwm(at, bank, float("inf")).amps
    return at.power * solar.EFFICIENCY / bank
