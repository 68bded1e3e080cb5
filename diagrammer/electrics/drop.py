"""Voltage drop the way each practice computes it, and the drop it allows.

Lengths are the whole way there and back [m], as ABYC E-11 and ISO 10133 count them.
"""

from __future__ import annotations

from diagrammer.electrics.conductor import KCMIL, area, parse_awg
from diagrammer.quantity import Size
from diagrammer.tables.load import load

FOOT = 0.3048  # [m]
BODY = {"abyc": "abyc", "cfr": "abyc", "nec": "nec", "iso": "iso"}


def drop(
    size: Size, amps: float, length: float, practice: str, *, ac: bool = False, parallel: int = 1,
    material: str = "copper",
) -> float:
    """Voltage lost [V] over `length` [m] of conductor, there and back, at `amps` [A].

    abyc: E = 10.75 I L / CM with the least area of SAE gauges (E-11). iso: E = 0.0164 I L / S (ISO 10133 Annex A);
    with `ac` 0.0225 (IEC 60364-5-52 Annex G). nec: 12.9 I L / CM. Aluminium: as the table of constants says.

    Raises
    ------
    ValueError
        Unknown practice.
    """
    constant = constant_of(practice, ac)
    own = float(constant["aluminium" if material == "aluminium" else "own"])
    if constant["unit"] == "ohm cmil/ft":
        return own * amps * (length / FOOT) / circular_mils(size, constant["area"]) / parallel
    return own * amps * length / area(size) / parallel


def area_for(amps: float, length: float, volts: float, practice: str, *, ac: bool = False) -> float:
    """The section that loses `volts` [V] over `length` [m] there and back at `amps` [A], in mm²; abyc, nec by cmil."""
    constant = constant_of(practice, ac)
    if constant["unit"] == "ohm cmil/ft":
        return float(constant["own"]) * amps * (length / FOOT) / volts / 1000 * KCMIL
    return float(constant["own"]) * amps * length / volts


def thinnest(
    amps: float, length: float, volts: float, practice: str, sizes: tuple[Size, ...], *, ac: bool = False
) -> Size | None:
    """The first of `sizes`, given thin to thick, that loses at most `volts` [V]; None if none does."""
    return next((s for s in sizes if drop(s, amps, length, practice, ac=ac) <= volts * (1 + 1e-9)), None)


def limit(practice: str, critical: bool = False, *, ac: bool = False) -> float:
    """The largest drop allowed, as a share of the nominal voltage: 0.03 for 3 %.

    Raises
    ------
    ValueError
        Unknown practice.
    """
    current, use = "ac" if ac else "dc", "critical" if critical else "other"
    for row in load("drop_limits"):
        if row["practice"] == practice and row["current"] in ("any", current) and row["use"] == use:
            return float(row["share"])
    raise ValueError(f"unknown practice: {practice!r}")


def circular_mils(size: Size, rule: str = "AWG") -> float:
    """Section [circular mil]; with rule "SAE" the least area of the SAE gauge where there is one."""
    if rule == "SAE" and size.system == "AWG":
        for row in load("areas_sae"):
            if parse_awg(row["gauge"]) == size:
                return float(row["cmil"])
    return area(size) / KCMIL * 1000


def constant_of(practice: str, ac: bool) -> dict[str, str]:
    if practice not in BODY:
        raise ValueError(f"unknown practice: {practice!r}")
    body = "iec" if practice == "iso" and ac else BODY[practice]
    return next(row for row in load("drop_constants") if row["practice"] == body)
