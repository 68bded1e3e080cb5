"""How far the excess has come from a source or a reduction, and how far it may come without a device.

33 CFR 183.455(b) and 183.460(a); ABYC E-11 11.10.1.1.1; ISO 10133 8.1; the main breaker of a shore inlet.
"""

from __future__ import annotations

import math

from diagrammer.electrics.protection import distances
from diagrammer.frozen import frozen
from diagrammer.tables.load import load

NEVER = -math.inf  # [m] no excess has come this way
MICRON = 1e-6  # [m] two lengths are the same


@frozen
class Reach:
    """How far a device may stand [m], in the order of the ways of Away."""

    most: tuple[float, float, float, float]

    @property
    def bare(self) -> float:
        return self.most[0]

    @property
    def from_battery(self) -> float:
        return self.most[2]


def reach(practice: str) -> Reach:
    """The distances of a practice, with that of the main breaker behind a shore inlet."""
    known = distances(practice)
    inlets = {row["practice"]: float(row["most"]) for row in load("inlet_breakers")}
    return Reach((known.bare, known.sheathed, known.from_battery, inlets.get(practice, known.sheathed)))


@frozen(slots=True)
class Way:
    """A length of conductor [m], and the run of unknown division that its last piece belongs to."""

    length: float = NEVER
    run: str = ""

    def longer(self, other: Way) -> Way:
        return self if self.length >= other.length else other

    def onward(self, length: float, run: str) -> Way:
        """With one more piece; pieces of one run are as long as the run together."""
        if self.length == NEVER:
            return self
        return Way(self.length + (0.0 if run and run == self.run else length), run)


@frozen(slots=True)
class Away:
    """How far the excess has come already at worst: over something bare, sheathed throughout, and
    likewise from a battery's post or a shore inlet. From each source and reduction the longest counts."""

    bare: Way = Way()
    sheathed: Way = Way()
    battery: Way = Way()
    inlet: Way = Way()

    @property
    def begun(self) -> bool:
        return max(way.length for way in self.ways) > NEVER

    @property
    def ways(self) -> tuple[Way, Way, Way, Way]:
        return self.bare, self.sheathed, self.battery, self.inlet

    def worst(self, other: Away) -> Away:
        return self if other is NOWHERE else Away(*map(Way.longer, self.ways, other.ways))

    def onward(self, length: float, run: str, sheathed: bool) -> Away:
        ways = [way.onward(length, run) for way in self.ways]
        return Away(*ways) if sheathed else Away(max(ways, key=lambda way: way.length))

    def within(self, reach: Reach) -> bool:
        return all(way.length <= most + MICRON for way, most in zip(self.ways, reach.most))


NOWHERE = Away()
FROM_POST = Away(battery=Way(0.0))
FROM_INLET = Away(inlet=Way(0.0))
FROM_HERE = Away(sheathed=Way(0.0))
