"""Which overcurrent device a conductor may have, which ratings are made, and where the device may stand."""

from __future__ import annotations

from functools import cache

from diagrammer.electrics.conductor import area, parse_awg
from diagrammer.frozen import frozen
from diagrammer.quantity import Size
from diagrammer.tables.load import load

SAME = 1e-9  # relative: two ratings are the same


@frozen
class Distances:
    """How far from the source a device may stand [m]: conductor bare, sheathed throughout, sheathed from a battery."""

    bare: float
    sheathed: float
    from_battery: float


@cache
def distances(practice: str) -> Distances:
    """The distances of a practice: 33 CFR 183.455(b), 183.460(a) and ABYC E-11; ISO 10133 8.1; nec common practice.

    Raises
    ------
    ValueError
        Unknown practice.
    """
    for row in load("distances"):
        if row["practice"] == practice:
            return Distances(float(row["bare"]), float(row["sheathed"]), float(row["battery"]))
    raise ValueError(f"unknown practice: {practice!r}")


@cache
def ratings(body: str = "") -> tuple[float, ...]:
    """The ratings that are made [A], ascending, of one body ("blade", "class-t", ...); of all bodies with ""."""
    found = {float(r) for row in load("ratings") if body in ("", row["body"]) for r in row["ratings"].split()}
    if not found:
        raise ValueError(f"unknown body of overcurrent devices: {body!r}")
    return tuple(sorted(found))


def is_made(amps: float, body: str = "") -> bool:
    """Whether devices of that body are made for `amps` [A]; with "" devices of any body."""
    return any(abs(amps - made) <= SAME * made for made in ratings(body))


def next_rating(amps: float, body: str = "") -> float | None:
    """The smallest rating made that is not below `amps` [A]; with "" of the trade's list of standard ratings.

    None: `amps` is above the largest one.
    """
    return next((made for made in ratings(body or "standard") if made >= amps * (1 - SAME)), None)


def largest_device(
    amps: float, practice: str, *, volts: float, size: Size | None = None, several: bool = False,
    material: str = "copper",
) -> float:
    """The largest rating [A] that one device may have for a conductor of ampacity `amps` [A].

    abyc: the next larger standard rating where `amps` itself is none, at most 150 % (ABYC E-11 11.10). cfr: 150 % below
    50 V, above as abyc (33 CFR 183.455(c)). nec: the next larger standard rating up to 800 A (240.4(B)), and what
    240.4(D) allows to small conductors of `size` and `material`. iso: the ampacity (IEC 60364-4-43 433.1).
    With `several`: the largest sum of the ratings of devices that feed it together.

    Raises
    ------
    ValueError
        Unknown practice.
    """
    rule = rule_of(practice, volts)
    if several:
        return amps * float(rule["of several"])
    share = float(rule["of one"] or "inf")
    if rule["next"] == "no":
        return amps * share
    made = next_rating(amps)
    fits = made is not None and made <= amps * share * (1 + SAME) and made <= float(rule["upto"] or "inf")
    return min(made if fits else amps, small_conductor(size, material) if practice == "nec" else float("inf"))


@cache
def rule_of(practice: str, volts: float) -> dict[str, str]:
    fitting = [r for r in load("device_rules") if r["practice"] == practice and float(r["volts"]) <= volts]
    if not fitting:
        raise ValueError(f"unknown practice: {practice!r}")
    return fitting[-1]


def small_conductor(size: Size | None, material: str = "copper") -> float:
    """The largest device [A] that NEC 240.4(D) allows to a small conductor; infinite for others."""
    if size is None or area(size) >= area(Size("AWG", 8)) * (1 - SAME):
        return float("inf")
    column = "aluminium" if material == "aluminium" else "device"
    rows = [r for r in load("small_conductors_nec") if r[column] and area(parse_awg(r["awg"])) <= area(size) * (1 + SAME)]
    return float(rows[-1][column]) if rows else 0.0


@cache
def single(name: str) -> float:
    """One of the single limits of the table device_limits, in its unit.

    Raises
    ------
    KeyError
        There is no such limit.
    """
    return {row["name"]: float(row["value"]) for row in load("device_limits")}[name]
