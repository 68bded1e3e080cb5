"""How names and quantities are written in a message."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from diagrammer.netlist.model import Conductor


def number(value: float) -> str:
    """At most three significant digits: "12.8", "200", "0.178"."""
    return f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"


def span(low: float, high: float, unit: str) -> str:
    """ "24 V", or "9 to 32 V" where the two differ."""
    low, high = number(low), number(high)
    return f"{low} {unit}" if low == high else f"{low} to {high} {unit}"


def size(wire: Conductor) -> str:
    """Such as "2/0 AWG" or "2 parallel 70 mm²"."""
    return wire.wire.label or "conductor"


def name(one: str) -> str:
    return f"`{one}`"


def names(many: Iterable[str], most: int = 3) -> str:
    """ "`a`", "`a` and `b`", "`a`, `b` and 4 others"."""
    quoted = [name(one) for one in many]
    if len(quoted) > most:
        quoted[most - 1:] = [f"{len(quoted) - most + 1} others"]
    return joined(quoted)


def joined(parts: Sequence[str]) -> str:
    """The parts as a phrase: "a, b and c"."""
    return " and ".join((", ".join(parts[:-1]), parts[-1])) if len(parts) > 1 else "".join(parts)


def verb(many: Sequence, one: str, several: str) -> str:
    return one if len(many) == 1 else several
