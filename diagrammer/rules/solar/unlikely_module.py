"""The figures of a module do not fit each other.

Why: every current, voltage and yield of the array is worked out from them, so that conductors and controller may be
chosen for an array that is not there.

Fix: copy power, voc, isc, vmp and imp of one module from its data sheet, and say how many there are with `series` and
`parallel`.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.netlist.model import Node
from diagrammer.quantity import show
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import name
from diagrammer.text.finding import Finding

SEVERITY = "warning"
SOURCES = ("IEC 61853-1: the power at full sun is vmp times imp, from memory", "common practice")

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
  roof: {kind: pv, series: 2, power: 400 W, voc: 24.6 V, vmp: 20.4 V, isc: 10.2 A, imp: 9.8 A}
# ^^^^ unlikely-module: `roof` states 400 W for one module, but 20.4 V times 9.8 A are 200 W
  sun: {kind: solar charger, type: mppt, output: 30 A, max pv voltage: 100 V}
circuits:
  - {feed: bank/fuse 50 A -> panel, wire: 6 AWG 1 m}
  - {feed: roof -> switch 2-pole 20 A -> sun.pv, wire: 10 AWG 4 m}
  - {feed: sun -> fuse 30 A/panel, wire: 10 AWG 1 m}
"""
APART = 0.1  # share by which a data sheet's power and its vmp times imp may differ (common practice)
FILL = (0.5, 0.9)  # of voc times isc: no module that is sold gives less, or more (common practice)


def check(survey: Survey) -> Iterator[Finding]:
    for node in survey.system.nodes.values():
        if node.kind.name == "pv" and (wrong := _wrong(node)):
            yield finding(__name__, survey, Fact("unlikely-module", nodes=(node.name,)), wrong, fix=_fix(node))


def _wrong(node: Node) -> str:
    for loaded, bare, unit in (("vmp", "voc", "V"), ("imp", "isc", "A")):
        if node.get(loaded) is not None and node[loaded] >= node[bare]:
            return (f"{name(node.name)} states {loaded} {show(node[loaded], unit)}, which is not below {bare}, "
                    f"{show(node[bare], unit)}")
    states = f"{name(node.name)} states {show(node['power'], 'W')} for one module, but"
    if node.get("vmp") is not None and node.get("imp") is not None:
        volts, amps, least, most = node["vmp"], node["imp"], 1 - APART, 1 + APART
    else:
        volts, amps, (least, most) = node["voc"], node["isc"], FILL
    watts = volts * amps
    if least * watts <= node["power"] <= most * watts:
        return ""
    return f"{states} {show(volts, 'V')} times {show(amps, 'A')} are {show(watts, 'W')}"


def _fix(node: Node) -> str:
    """Where the power is that of the whole array, it is said."""
    modules, volts, amps = node["series"] * node["parallel"], node.get("vmp"), node.get("imp")
    one = node["power"] / modules
    if modules > 1 and volts and amps and abs(one / (volts * amps) - 1) <= APART:
        return f"Write the power of one module, {show(one, 'W')}: `series` and `parallel` multiply it."
    return ""
