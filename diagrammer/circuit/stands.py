"""Claims of voltage on a net, and which of them can't both be right.

A nominal voltage V stands for V / 1.1 to 1.1 V; what charges for V / 1.2 to 1.1 V, since it may be
given as its charge voltage; a stated window is drawn in by 1.1; ac is one of a set from line to
neutral, and one of a set from line to line, as its cores are. Claims that can be compared are
grouped around the voltage that most of the highest class accept (storage, then sources and the
outputs of converters, then inputs, then loads; file order on a tie). Practice of this program, not
of a standard.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from diagrammer.circuit.stacks import Stacks
from diagrammer.circuit.view import View
from diagrammer.frozen import frozen
from diagrammer.kinds.kind import Claim

SPREAD = 1.1  # a nominal voltage stands for what lies within this factor of it
CHARGE = 1.2  # a charge voltage over the nominal one that it still charges
CLASSES = ("storage", "source", "input", "load")
RETURN = {"return": ((0.0, 0.0),)}  # what a - says of its net: direct current, at no voltage of its own


@frozen
class Stand:
    """A claim on a net: in each measure ("dc", "line to neutral", "line to line") the windows it
    accepts [V]. stated: as written [V]; height: above the foot of a stack of batteries [V]."""

    node: str
    terminal: str
    role: str
    accepts: Mapping[str, tuple[tuple[float, float], ...]]
    stated: tuple[float, float]
    height: float = 0.0

    @property
    def ac(self) -> bool:
        return "dc" not in self.accepts and "return" not in self.accepts

    def takes(self, measure: str, volt: float) -> bool:
        return any(low <= volt <= high for low, high in self.accepts[measure])

    def meets(self, other: Stand) -> bool:
        """Whether some voltage suits both, where they can be compared at all."""
        return self.ac == other.ac and all(
            any(max(a, c) <= min(b, d) for a, b in self.accepts[measure] for c, d in other.accepts[measure])
            for measure in self.accepts if measure in other.accepts
        )


def stands(view: View) -> dict[str, list[tuple[int, Stand]]]:
    """{terminal: [(place in the file's order, stand)]} of everything that claims a voltage."""
    stacks = Stacks(view)
    charging = {(name, give.port) for name, give in view.gives if give.role in ("charger", "source")}
    found: dict[str, list[tuple[int, Stand]]] = {}
    for number, (name, claim) in enumerate(view.claims):
        accepts = _ac(view, name, claim) if claim.volts else {"dc": (_window(claim, (name, claim.port) in charging),)}
        below, above = stacks.height(None if claim.volts else view.pole(name, claim.port, "-"))
        if above:
            accepts = {"dc": tuple((low + below / SPREAD, high + above * SPREAD) for low, high in accepts["dc"])}
        landings = [(terminal, accepts) for terminal in view.hot(name, claim.port)]
        if minus := view.pole(name, claim.port, "-"):
            landings.append((minus, RETURN))
        for terminal, here in landings:
            one = Stand(name, terminal, claim.role, here, (claim.low, claim.high), below)
            found.setdefault(terminal, []).append((number, one))
    return found


def _window(claim: Claim, charges: bool) -> tuple[float, float]:
    """The direct voltages that a claim accepts [V]."""
    if not claim.stated:
        return claim.low / (CHARGE if charges else SPREAD), claim.high * SPREAD
    low, high = claim.low * SPREAD, claim.high / SPREAD
    middle = math.sqrt(claim.low * claim.high)
    return min(low, middle), max(high, middle)  # where it is too narrow to draw in, its middle has to do


def _ac(view: View, name: str, claim: Claim) -> dict[str, tuple[tuple[float, float], ...]]:
    """Line to neutral where one line and a neutral land, line to line where lines alone do; with
    several lines and a neutral the kind gives the first, then the second."""
    cores = view.poles(name, claim.port)
    lines = sum(pole.startswith("L") for pole in cores)
    windows = tuple((volt / math.sqrt(SPREAD), volt * math.sqrt(SPREAD)) for volt in claim.volts)
    if "N" not in cores:
        return {"line to line": windows}
    return {"line to neutral": windows} if lines == 1 else {"line to neutral": windows[:1], "line to line": windows[1:]}


def conflicts(stands: Sequence[Stand]) -> Iterator[tuple[list[Stand], list[Stand]]]:
    """The pairs of groups on one net that must not meet, the one in the right first: ac and dc,
    then in each measure the voltage that most accept and every other."""
    kinds = [[s for s in stands if s.ac], [s for s in stands if not s.ac]]
    if all(kinds):
        yield tuple(sorted(kinds, key=_weight))
    for measure in ("dc", "line to neutral", "line to line"):
        first, *others = groups([s for s in stands if measure in s.accepts], measure)
        for other in others:
            if clashing := [s for s in other if not _suits(s, first)]:
                yield first, clashing


def _suits(one: Stand, group: Sequence[Stand]) -> bool:
    """Whether a claim agrees with all of the highest class of a group: a load that suits the bank
    is not on another voltage because the charger stands a little higher."""
    highest = min(CLASSES.index(s.role) for s in group)
    return all(one.meets(s) for s in group if CLASSES.index(s.role) == highest)


def _weight(stands: Iterable[Stand]) -> tuple[int, ...]:
    """How many claims of each class, most first: the smaller outweighs."""
    roles = [s.role for s in stands]
    return tuple(-roles.count(role) for role in CLASSES)


def groups(stands: Sequence[Stand], measure: str) -> list[list[Stand]]:
    """Comparable claims of one net around the voltages that most accept."""
    left, found = list(stands), []
    while left:
        volt = _best(left, measure)
        found.append([s for s in left if s.takes(measure, volt)])
        left = [s for s in left if not s.takes(measure, volt)]
    return found or [[]]


def _best(stands: Sequence[Stand], measure: str) -> float:
    keys = [(one.role, one.accepts[measure]) for one in stands]
    alike, sample = Counter(keys), dict(zip(keys, stands))
    volts = dict.fromkeys(
        volt for one in sample.values() for low, high in one.accepts[measure]
        for volt in (math.sqrt(low * high), low, high)
    )

    def rank(volt: float) -> tuple:
        taken = [key for key, one in sample.items() if one.takes(measure, volt)]
        counts = [-sum(alike[key] for key in taken if key[0] == role) for role in CLASSES]
        return *counts, min(map(keys.index, taken))

    return min(volts, key=rank)
