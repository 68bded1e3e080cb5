"""The short-circuit current a device must break, and what it can."""

from __future__ import annotations

from collections import defaultdict
from functools import cached_property

from diagrammer.circuit.batteries import batteries
from diagrammer.circuit.mains_faults import MainsFaults
from diagrammer.circuit.study import Study
from diagrammer.circuit.voltages import LEAD, Voltages
from diagrammer.circuit.zones import Way, Zones
from diagrammer.electrics import device
from diagrammer.frozen import frozen
from diagrammer.netlist.model import Node

LIMITING = ("class-t", "nh", "gpv")  # fuses that cut a large fault current off before its peak


@frozen
class Prospective:
    """amps [A] through a device at most, in a short circuit right behind it. estimated: the batteries, generators or
    other sources whose own short-circuit current is not stated."""

    amps: float
    estimated: tuple[str, ...] = ()


@frozen
class Capacity:
    """What a device breaks [A], or stands [V]; usual: not stated, but what its body usually has by `standard`."""

    value: float
    usual: bool = False
    standard: str = ""


def family(node: Node) -> tuple[str, str]:
    """The body and form of a device as the table of families names them; "" where the netlist does not say."""
    sort = node.get("type") or ""
    if node.kind.name == "fuse":
        return sort, ""
    if node.kind.name == "breaker":
        return "breaker", sort or "unsaid"
    return "", ""


def breaks(node: Node, volts: float, ac: bool = False) -> Capacity | None:
    """What a device breaks at no more than `volts` [V]; None where neither it nor its body says."""
    if node.get("breaking"):
        return Capacity(node["breaking"])
    body, form = family(node)
    found = device.breaking(body, node["rating"], volts, form, ac=ac) if node.get("rating") else None
    return Capacity(found.breaking, True, found.standard) if found else None


def stands(node: Node) -> Capacity | None:
    """The dc voltage a device is made for; None where neither it nor its body says."""
    if node.get("voltage"):
        return Capacity(node["voltage"])
    body, form = family(node)
    found = device.usual(body, node["rating"], form) if node.get("rating") else ()
    return Capacity(found[-1].volts, True, found[-1].standard) if found else None


class Breaking:
    """The prospective currents of one view's devices."""

    def __init__(self, zones: Zones, study: Study, voltages: Voltages, mains: MainsFaults):
        self.zones, self.study, self.voltages, self.mains = zones, study, voltages, mains
        self._batteries = batteries(zones.view.system)

    def prospective(self, way: Way) -> Prospective | None:
        """From the side that gives more: the batteries there, and beyond the first device less what the conductors
        hold back; sources that limit themselves are left out. On ac from the source that gives most. None where no
        source reaches it of which something is known."""
        if way.ac:
            return self.of_mains(way)
        a, b = self.zones.sides.of(way.key)
        found = [max(min(amps, side.short_circuit), self._own[self.zones.zone(end)])
                 for at, end, side in ((way.a, way.b, b), (way.b, way.a, a))
                 if (amps := self.study.faults.of_batteries(at)) is not None]
        if not found:
            return None
        nets, known = self.zones.view.nets, self.study.faults.estimated
        return Prospective(max(found), tuple(name for name in known if nets.together(f"{name}.+", way.a)))

    def of_mains(self, way: Way, assumed: bool = False) -> Prospective | None:
        """On ac, of the sources of which something is known, or of public supplies of which only what is usual is."""
        found = self.mains.largest(way.a, assumed) if way.ac else None
        return Prospective(found[0], tuple(one.name for one in found[1] if not one.stated)) if found else None

    def capacity(self, way: Way) -> Capacity | None:
        """What a device breaks where it stands; None where neither it nor its body says."""
        return breaks(way.node, self.voltages.highest(way.a), way.ac)

    @cached_property
    def _own(self) -> dict[int, float]:
        """Short-circuit current [A] of the batteries in a zone itself, as stated: nothing that is known limits it."""
        found: dict[int, float] = defaultdict(float)
        for name, one in self._batteries.items():
            found[self.zones.zone(f"{name}.+")] += one.short_circuit
        return found

    def limited_by(self, way: Way) -> str:
        """The current-limiting fuse ahead of a device, on the one way to it, that itself breaks what flows there;
        "" where there is none."""
        sides = self.zones.source_side(way)
        while sides and not self.zones.has_source(sides[0]):
            ahead, *others = self.zones.feeding(sides[0])
            if others:
                return ""
            if self._limits(ahead):
                return ahead.node.name
            sides = self.zones.source_side(ahead)
        return ""

    def _limits(self, way: Way) -> bool:
        found, able = self.prospective(way), self.capacity(way)
        return way.node.get("type") in LIMITING and bool(found and able) and able.value >= found.amps

    def main(self, way: Way) -> bool:
        """Whether a battery stands ahead of a device with no other device between."""
        return any(self.zones.has_source(self.zones.zone(end)) for end in (way.a, way.b))

    def lead(self, way: Way) -> float | None:
        """Capacity [Ah] of all batteries on a device's net where they are lead-acid; None where one is not."""
        nets = self.zones.view.nets
        found = [one for name, one in self._batteries.items() if nets.together(f"{name}.+", way.a)]
        if any(one.node["chemistry"] not in LEAD for one in found):
            return None
        return sum(one.capacity for one in found)
