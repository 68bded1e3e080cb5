"""A short circuit at the far end of a conductor destroys its insulation before the device opens.

Why: far away the fault current is small, and a slow or large device takes longer to open than the conductor stands it:
its insulation melts and can catch fire.

On ac this is asked of a public supply, or a generator, whose `short circuit` is stated. An inverter limits its current
and switches itself off.

Fix: take a faster or smaller device, a thicker or shorter conductor, or give the far part a device of its own.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.circuit.breaking import family
from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact, node_of
from diagrammer.circuit.zones import Way
from diagrammer.electrics import adiabatic
from diagrammer.electrics.ampacity import INSULATION
from diagrammer.electrics.conductor import area
from diagrammer.electrics.device import opens_within
from diagrammer.electrics.protection import single
from diagrammer.electrics.rounding import above
from diagrammer.netlist.model import Conductor
from diagrammer.quantity import show
from diagrammer.rules.protection._words import device
from diagrammer.rules.rule import finding
from diagrammer.rules.wording import size
from diagrammer.text.finding import Finding

SEVERITY = "danger"
SOURCES = (
    "IEC 60364-4-43 434.5.2: t at most (k S / I)², for at most 5 s",
    "IEC 60949 for k",
    "IEC 60909-0: a supply at 95 % of its voltage, conductors hot",
    "opening times by body: the table of device times (from memory); a data sheet goes before them",
)
GOOD = """
practice: iso
wire: {insulation: 90 °C}
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 2.5 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  winch:  {kind: load, voltage: 12 V, power: 500 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 150 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [50 mm² 0.5 m, 0.5 m]
  - {feed: feed-bar/fuse class-t 100 A -> winch, wire: 16 mm² 3 m}
"""
BAD = """
practice: iso
wire: {insulation: 90 °C}
nodes:
  bank:   {kind: bank, chemistry: agm, voltage: 12 V, capacity: 200 Ah, short circuit: 2.5 kA, pair: return-bar}
  meter:  {kind: shunt, rating: 300 A}
  feed-bar: {kind: bar, rating: 300 A, pair: return-bar}
  return-bar: {kind: bar, rating: 300 A}
  winch:  {kind: load, voltage: 12 V, power: 500 W}
circuits:
  - name:   main
    feed:   bank/fuse class-t 150 A -> switch battery 300 A -> feed-bar
    return: bank -> meter -> return-bar
    wire:   [50 mm² 0.5 m, 0.5 m]
  - {feed: feed-bar/breaker curve-d 100 A 10 kA -> winch, wire: 16 mm² 3 m}
  #                 ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ protection-will-not-clear: a short circuit at winch draws...
"""


def check(survey: Survey) -> Iterator[Finding]:
    zones = survey.zones
    for zone, wires in zones.wires.items():
        feeding = zones.feeding(zone)
        if len({way.node.name for way in feeding}) != 1 or zones.has_source(zone):
            continue
        found = [one for wire in wires if (one := _too_slow(survey, feeding[0], wire))]
        if found:
            yield _finding(survey, feeding[0], *min(found, key=lambda one: one[1] / one[2]))


def _too_slow(survey: Survey, way: Way, wire: Conductor) -> tuple[Conductor, float, float, float] | None:
    """The conductor, how long it stands the smallest fault at its far end, how long the device takes [s], and the
    current [A]; None where the device opens in time, or nothing is known."""
    faults = survey.mains_faults if way.ac else survey.study.faults
    ends = [amps for end in (wire.a, wire.b) if (amps := faults.smallest(end))]
    body, form = family(way.node)
    limit = survey.carrying.limit(wire, survey.voltages.nominal(wire.a))
    if not ends or not way.rating or limit is None or above(way.rating, limit.one):
        return None  # a device too large for it is another fault, or excused by a short distance
    amps = min(ends)
    takes = opens_within(body, amps / way.rating, form)
    rated = wire.wire.insulation or INSULATION[survey.system.practice]
    stands = adiabatic.longest(area(wire.wire.size) * wire.wire.parallel, amps, adiabatic.k(rated, wire.wire.material))
    if takes is None or not single("shortest") <= stands <= adiabatic.LONGEST or takes <= stands:
        return None
    return wire, stands, takes, amps


def _finding(survey: Survey, way: Way, wire: Conductor, stands: float, takes: float, amps: float) -> Finding:
    slow = f"may take {show(takes, 's', 2)}" if takes < float("inf") else "need not open at all"
    far = node_of(wire.b)
    return finding(
        __name__, survey, Fact("protection-will-not-clear", (wire.cable,), (way.node.name, far)),
        f"a short circuit at {far} draws {show(amps, 'A')}: the {size(wire)} stands that for {show(stands, 's', 2)}, "
        f"the {device(survey, way.node.name)} {slow}",
    )
