"""Steady state of a dc network: what it is made of, and what flows.

Nodes are names. Both poles are part of the network: a load lies between a node of the feed and one of the return.
"""

from __future__ import annotations

import math
from dataclasses import field

from diagrammer.frozen import frozen


@frozen(slots=True)
class Branch:
    """A resistance of `ohms` [Ω] from `a` to `b`; 0 for a bolted joint. Its current counts from a to b."""

    name: str
    a: str
    b: str
    ohms: float


@frozen(slots=True)
class Source:
    """A battery: `volts` [V] behind `ohms` [Ω], above zero. Its current counts out of `plus`; below zero: charging."""

    name: str
    plus: str
    minus: str
    volts: float
    ohms: float


@frozen(slots=True)
class Load:
    """What draws `value`: sort "power" [W], "current" [A] or "resistance" [Ω].

    `least`: the voltage [V] it needs; below it the load is named in Flow.low.
    """

    name: str
    plus: str
    minus: str
    sort: str
    value: float
    least: float = 0.0


@frozen(slots=True)
class Charger:
    """Holds `volts` [V] behind `ohms` [Ω] up to `amps` [A], else gives `amps`; takes nothing back."""

    name: str
    plus: str
    minus: str
    volts: float
    amps: float = math.inf
    ohms: float = 1e-3


@frozen(slots=True)
class Converter:
    """A charger whose power comes out of `from_plus`, `from_minus`: given power / `efficiency` (0 ... 1) + `idle` [W].

    `least`: the input voltage [V] it needs; below it the converter is named in Flow.low. `share`: of what is drawn from
    it that it gives (0 ... 1); of the rest its input sees nothing.
    """

    name: str
    from_plus: str
    from_minus: str
    plus: str
    minus: str
    volts: float
    efficiency: float = 0.9
    amps: float = math.inf
    ohms: float = 1e-3
    idle: float = 0.0
    least: float = 0.0
    share: float = 1.0


@frozen
class Network:
    """Names are unique over all its parts.

    Raises
    ------
    ValueError
        A name given twice, a source without resistance, a negative number, an efficiency or a share outside 0 ... 1.
    """

    branches: tuple[Branch, ...] = ()
    sources: tuple[Source, ...] = ()
    loads: tuple[Load, ...] = ()
    chargers: tuple[Charger, ...] = ()
    converters: tuple[Converter, ...] = ()

    @property
    def ends(self) -> frozenset[str]:
        """The nodes on which a part stands that is no branch."""
        parts = (*self.sources, *self.loads, *self.chargers, *self.converters)
        inputs = (name for one in self.converters for name in (one.from_plus, one.from_minus))
        return frozenset((*(one.plus for one in parts), *(one.minus for one in parts), *inputs))

    def __post_init__(self):
        parts = (*self.branches, *self.sources, *self.loads, *self.chargers, *self.converters)
        if len({part.name for part in parts}) < len(parts):
            raise ValueError("a name is given twice")
        for part in (*self.sources, *self.chargers, *self.converters):
            if not part.ohms > 0:
                raise ValueError(f"{part.name} needs a resistance above zero")
        for part in self.branches:
            if not 0 <= part.ohms < math.inf:
                raise ValueError(f"{part.name} needs a finite resistance, zero or above")
        for load in self.loads:
            if load.sort not in ("power", "current", "resistance") or not 0 <= load.value < math.inf:
                raise ValueError(f"{load.name} has no such load: {load.value} {load.sort}")
            if load.sort == "resistance" and load.value == 0:
                raise ValueError(f"{load.name} has no resistance")
        for converter in self.converters:
            if not 0 < converter.efficiency <= 1:
                raise ValueError(f"{converter.name} has an efficiency of {converter.efficiency}")
            if not 0 < converter.share <= 1:
                raise ValueError(f"{converter.name} gives a share of {converter.share}")


@frozen
class Flow:
    """The steady state.

    volts: of each node [V] over the reference of its island, the minus of the first source there. amps: of each part by
    name [A], of converters what they give. drawn: input current [A] of converters. dead: loads and converters that no
    source reaches. low: those whose voltage is below what they need.
    """

    volts: dict[str, float] = field(default_factory=dict)
    amps: dict[str, float] = field(default_factory=dict)
    drawn: dict[str, float] = field(default_factory=dict)
    dead: tuple[str, ...] = ()
    low: tuple[str, ...] = ()


@frozen
class Collapse:
    """No steady state: the network cannot carry what is asked.

    load: the one whose voltage gives way, branch: the part on its way that loses most (a source where it is the source
    itself). share: how much of all loads it could still carry, 0 ... 1.
    """

    load: str
    branch: str
    share: float
