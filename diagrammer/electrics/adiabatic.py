"""What a conductor's insulation stands in a short circuit of at most five seconds (IEC 60364-4-43 434.5.2)."""

from __future__ import annotations

import math

from diagrammer.tables.load import load

LONGEST = 5.0  # [s] beyond it the heating is not adiabatic any more
COPPER, ALUMINIUM = (226.0, 234.5), (148.0, 228.0)  # K [A s^0.5 / mm²], beta [K]: IEC 60949 clause 3


def k(insulation: float, material: str = "copper", kind: str = "pvc") -> float:
    """k [A s^0.5 / mm²] of a conductor whose insulation is rated for `insulation` [°C].

    The tabulated value where there is one, else by the formula from that temperature to the final one of its `kind`
    ("pvc", "xlpe", "rubber"); insulation rated above 105 °C never counts as pvc.

    Raises
    ------
    ValueError
        Unknown kind or material, or insulation rated for the final temperature itself.
    """
    material = "copper" if material == "tinned" else material
    if kind == "pvc" and insulation > 105:
        kind = "xlpe"
    rows = [r for r in load("adiabatic") if r["material"] == material and r["insulation"] == kind]
    if not rows:
        raise ValueError(f"no k for {material} in {kind}")
    for row in rows:
        if float(row["rated"]) == insulation:
            return float(row["printed"] or row["computed"])
    return k_between(insulation, float(rows[0]["final"]), material)


def k_between(initial: float, final: float, material: str = "copper") -> float:
    """k [A s^0.5 / mm²] between two temperatures [°C]: K sqrt(ln((final + beta) / (initial + beta))), IEC 60949."""
    if final <= initial:
        raise ValueError(f"no heating from {initial:g} to {final:g} °C")
    constant, beta = COPPER if material == "copper" else ALUMINIUM
    return constant * math.sqrt(math.log((final + beta) / (initial + beta)))


def longest(section: float, amps: float, k: float) -> float:
    """How long [s] a conductor of `section` [mm²] stands `amps` [A]: (k S / I)². Above LONGEST a bound from below."""
    return (k * section / amps) ** 2


def thinnest(amps: float, seconds: float, k: float) -> float:
    """The section [mm²] that stands `amps` [A] for `seconds`: I sqrt(t) / k."""
    return amps * math.sqrt(seconds) / k


def withstands(let_through: float, section: float, k: float) -> bool:
    """Whether a conductor of `section` [mm²] stands what a device lets through [A² s]: I² t <= k² S²."""
    return let_through <= (k * section) ** 2
