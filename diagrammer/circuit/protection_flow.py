"""What can flow into one end of a conductor, kept apart by what limits it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from diagrammer.circuit.carrying import Limit
from diagrammer.electrics.protection import distances
from diagrammer.tables.load import load

ROUNDING = 1e-9  # relative: the same current
NEVER = -math.inf  # [m] no excess has come this way
MICRON = 1e-6  # [m] two lengths are the same


@dataclass(frozen=True)
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


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
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
        return Away(self.bare.longer(other.bare), self.sheathed.longer(other.sheathed),
                    self.battery.longer(other.battery), self.inlet.longer(other.inlet))

    def onward(self, length: float, run: str, sheathed: bool) -> Away:
        ways = [way.onward(length, run) for way in self.ways]
        return Away(*ways) if sheathed else Away(max(ways, key=lambda way: way.length))

    def within(self, reach: Reach) -> bool:
        return all(way.length <= most + MICRON for way, most in zip(self.ways, reach.most, strict=True))


FROM_POST = Away(battery=Way(0.0))
FROM_INLET = Away(inlet=Way(0.0))
FROM_HERE = Away(sheathed=Way(0.0))


@dataclass(frozen=True, slots=True)
class Flow:
    """What a fault can draw through one point [A].

    bare: a source without limit reaches it through no device. devices: the sum that devices let
    through, largest: the largest of them. limited: the sum of sources that limit themselves.
    held: what came as far as a conductor that is reported already, and asked: what that conductor's
    own load takes, so that its device cannot be smaller. away: how far the excess has come.
    """

    bare: bool = False
    devices: float = 0.0
    largest: float = 0.0
    limited: float = 0.0
    held: float = 0.0
    asked: float = 0.0
    away: Away = Away()

    @property
    def none(self) -> bool:
        return not (self.bare or self.devices or self.limited or self.held)

    @property
    def total(self) -> float:
        return math.inf if self.bare else self.devices + self.limited + self.held

    def __add__(self, other: Flow) -> Flow:
        return Flow(
            self.bare or other.bare, self.devices + other.devices, max(self.largest, other.largest),
            self.limited + other.limited, self.held + other.held, max(self.asked, other.asked),
            self.away.worst(other.away),
        )

    def through(self, rating: float | None) -> Flow:
        """Past an overcurrent device of `rating` [A]; None, one that is still to be chosen, will suit."""
        if rating is None:
            return NOTHING
        if self.total > rating * (1 + ROUNDING):
            return Flow(devices=rating, largest=rating)
        return Flow(devices=self.total, largest=max(self.largest, self.limited, self.held))

    def hold(self, asked: float) -> Flow:
        """Past a conductor that is reported: it will get a device that suits it and its load."""
        return Flow(held=self.total, asked=max(asked, self.asked))

    def excess(self, limit: Limit | None) -> str:
        """Why it is too much for a conductor: "bare", "rating", "sum", "limited", "asked", or ""."""
        if self.bare:
            return "bare"
        if limit is None:
            return ""
        if above(self.largest, limit.one):
            return "rating"
        if self.devices and self.devices + self.limited > self.largest and above(
                self.devices + self.limited, limit.several):
            return "sum"
        if above(self.limited, limit.ampacity.amps):
            return "limited"
        return "asked" if above(self.asked, limit.one) else ""

    def at(self, away: Away) -> Flow:
        return replace(self, away=away)


NOTHING = Flow()


def above(amps: float, most: float) -> bool:
    return amps > most * (1 + ROUNDING)


def together(flows: Iterable[Flow]) -> Flow:
    found = NOTHING
    for flow in flows:
        found = found + flow
    return found
