"""What can flow into one end of a conductor, kept apart by what limits it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from diagrammer.circuit.carrying import Limit
from diagrammer.circuit.protection_away import NOWHERE, Away
from diagrammer.electrics.rounding import above
from diagrammer.frozen import frozen


@frozen(slots=True)
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
    away: Away = NOWHERE

    @property
    def none(self) -> bool:
        return not (self.bare or self.devices or self.limited or self.held)

    @property
    def total(self) -> float:
        return math.inf if self.bare else self.devices + self.limited + self.held

    def __add__(self, other: Flow) -> Flow:
        return self if other is NOTHING else Flow(
            self.bare or other.bare, self.devices + other.devices, max(self.largest, other.largest),
            self.limited + other.limited, self.held + other.held, max(self.asked, other.asked),
            self.away.worst(other.away),
        )

    def through(self, rating: float | None) -> Flow:
        """Past an overcurrent device of `rating` [A]; None, one that is still to be chosen, will suit."""
        if rating is None:
            return NOTHING
        if above(self.total, rating):
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


def together(flows: Iterable[Flow]) -> Flow:
    found = NOTHING
    for flow in flows:
        found = found + flow
    return found
