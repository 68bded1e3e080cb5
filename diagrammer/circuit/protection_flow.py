"""What can flow into one end of a conductor, kept apart by what limits it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from diagrammer.circuit.carrying import Limit
from diagrammer.electrics.protection import Distances

ROUNDING = 1e-9  # relative: the same current
NEVER = -math.inf  # [m] no excess has come this way
MICRON = 1e-6  # [m] two lengths are the same


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
    likewise from a battery's post. From each source and each reduction the longest counts."""

    bare: Way = Way()
    sheathed: Way = Way()
    battery: Way = Way()

    @property
    def begun(self) -> bool:
        return max(self.bare.length, self.sheathed.length, self.battery.length) > NEVER

    def worst(self, other: Away) -> Away:
        return Away(self.bare.longer(other.bare), self.sheathed.longer(other.sheathed),
                    self.battery.longer(other.battery))

    def onward(self, length: float, run: str, sheathed: bool) -> Away:
        bare, covered, battery = (way.onward(length, run) for way in (self.bare, self.sheathed, self.battery))
        if sheathed:
            return Away(bare, covered, battery)
        return Away(bare.longer(covered).longer(battery))

    def within(self, limits: Distances) -> bool:
        return (self.bare.length <= limits.bare + MICRON and self.sheathed.length <= limits.sheathed + MICRON
                and self.battery.length <= limits.from_battery + MICRON)

    def allowed(self, limits: Distances) -> tuple[float, float]:
        """The distance that is broken and its limit [m], the most broken one of the three."""
        pairs = ((self.bare.length, limits.bare), (self.sheathed.length, limits.sheathed),
                 (self.battery.length, limits.from_battery))
        return max(pairs, key=lambda pair: pair[0] - pair[1])


FROM_POST = Away(battery=Way(0.0))
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
