"""The array's voltage in the heat is too low to charge the bank.

Why: on the hottest and brightest days, when most sun comes in, the controller gives little or nothing.

Fix: put more modules in series, or take ones of a higher voltage.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.arrays import Array, arrays
from diagrammer.circuit.batteries import charge_voltage
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics import solar
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name, names, verb
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("common practice: 1 V above the bank for a tracking controller, cells 30 K above the air in full sun",)

GOOD = """
site: {hottest: 35 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, series: 2, vmp drift: -0.4 %/°C, power: 200 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""

BAD = """
site: {hottest: 35 °C}
nodes:
  bank: {kind: bank, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max charge: 100 A, cold cutoff: yes}
  panel: {kind: panel, rating: 50 A}
  roof: {kind: pv, vmp drift: -0.4 %/°C, power: 150 W, voc: 20 V, vmp: 16.5 V, isc: 10.2 A, imp: 9.1 A}
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
# ^^^ pv-voltage-too-low: `roof` falls to 13.9 V in full sun at 35 °C, but `sun` needs 15.2 V to charge to 14.2 V
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""
SAME = 1e-9


def check(survey: Survey) -> Iterator[Finding]:
    hottest = survey.system.site.hottest
    for array in arrays(survey.cleared):
        bank, volts = charge_voltage(survey.cleared.system, f"{array.taker.name}.+"), array.power_voltage(hottest)
        if array.taker.kind.name != "solar charger" or bank is None or volts is None:
            continue
        needed = bank + (solar.HEADROOM if array.taker["type"] == "mppt" else 0.0)
        if volts < needed * (1 - SAME):
            yield _finding(survey, array, volts, needed, bank, hottest)


def _finding(survey: Survey, array: Array, volts: float, needed: float, bank: float, hottest: float | None) -> Finding:
    pv = [node.name for node in array.nodes]
    at = "even with the cells at 25 °C" if hottest is None else f"in full sun at {hottest:g} °C"
    needs = f"{name(array.taker.name)} needs {show(needed, 'V')} to charge to {show(bank, 'V')}"
    message = f"{names(pv)} {verb(pv, 'falls', 'fall')} to {show(volts, 'V')} {at}, but {needs}"
    return finding(__name__, survey, Fact("pv-voltage-too-low", nodes=(array.taker.name, *pv)), message)
