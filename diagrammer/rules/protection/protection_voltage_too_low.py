"""A device is rated below the highest voltage of its circuit, or for ac only and stands in dc.

Why: a device that opens at more than its own voltage cannot put its arc out, and burns; dc has no zero crossing that
would help.

Fix: take a device made for the highest voltage that the circuit sees, charging and cold included, and for dc.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.breaking import Capacity, stands
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.electrics.rounding import above
from diagrammer.netlist.model import Inside, Node
from diagrammer.quantity import show
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "33 CFR 183.455(d)",
    "ISO 8820-3, -4, -5, -6 and ISO 20934: rated voltages of the bodies",
    "IEC 60898-2 and IEC 60947-2: breakers for dc",
    "IEC 60269-6: fuses for pv",
)
GOOD = """
practice: iso
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah, short circuit: 2 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 48 V, power: 200 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 60 A -> switch battery 100 A 80 V -> panel
    return: bank -> meter -> return-bar
    wire:   [16 mm² 0.5 m, 0.5 m]
  - {feed: panel/fuse strip 30 A 70 V 2.5 kA -> pump, wire: 6 mm² 3 m}
"""
BAD = """
practice: iso
nodes:
  bank:   {kind: bank, chemistry: lifepo4, voltage: 48 V, capacity: 100 Ah, short circuit: 2 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  panel:  {kind: panel, rating: 60 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  pump:   {kind: load, voltage: 48 V, power: 200 W}
  alarm:  {kind: load, voltage: 48 V, power: 5 W}
  fan:    {kind: load, voltage: 48 V, power: 5 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 60 A -> switch battery 100 A 80 V -> panel
    return: bank -> meter -> return-bar
    wire:   [16 mm² 0.5 m, 0.5 m]
  - {feed: panel/fuse strip 30 A 58 V 2 kA -> pump, wire: 6 mm² 3 m}
  #              ^^^^^^^^^^^^^^^^^^^^^^^^^ protection-voltage-too-low: the 30 A fuse `F2` is made for 58 V; its...
  - {feed: panel/fuse blade 3 A 2 kA -> alarm, wire: 1.5 mm² 3 m}
  #              ^^^^^^^^^^^^^^^^^^^ protection-voltage-too-low: the 3 A fuse `F3` is made for 32 V, as its body...
  - {feed: panel/breaker ac-only 6 A 400 V 6 kA -> fan, wire: 1.5 mm² 3 m}
  #              ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ protection-voltage-too-low: the 6 A breaker `Q2` is made for ac only...
"""
KINDS = ("fuse", "breaker", "rcbo", "rcd", "switch")


def check(survey: Survey) -> Iterator[Finding]:
    met: set[str] = set()
    for inside in survey.cleared.system.insides:
        node = survey.system.nodes[inside.node]
        if node.kind.name not in KINDS or node.name in met:
            continue
        found = _ac(survey, node, inside) if inside.core else _dc(survey, node, inside)
        if found:
            met.add(node.name)
            yield found


def _ac(survey: Survey, node: Node, inside: Inside) -> Finding | None:
    volts = survey.voltages.nominal(inside.a)
    if not node.get("voltage") or not above(volts, node["voltage"]):
        return None
    return _say(survey, node, Capacity(node["voltage"]), volts)


def _dc(survey: Survey, node: Node, inside: Inside) -> Finding | None:
    volts = survey.voltages.highest(inside.a)
    if not volts:
        return None
    if node.get("type") == "ac-only":
        return finding(
            __name__, survey, Fact("protection-voltage-too-low", nodes=(node.name,)),
            f"the {device(survey, node.name)} is made for ac only and stands in dc of up to {show(volts, 'V')}",
            fix=f"Take a breaker marked for dc of {show(volts, 'V')} or more.",
        )
    able = stands(node)
    return _say(survey, node, able, volts) if able and above(volts, able.value) else None


def _say(survey: Survey, node: Node, able: Capacity, volts: float) -> Finding:
    body = f", as its body usually is ({able.standard})" if able.usual else ""
    return finding(
        __name__, survey, Fact("protection-voltage-too-low", nodes=(node.name,)),
        f"the {device(survey, node.name)} is made for {show(able.value, 'V')}{body}; its circuit reaches "
        f"{show(volts, 'V')}",
        fix=f"Take one made for {show(volts, 'V')} or more, and state its voltage.",
    )
