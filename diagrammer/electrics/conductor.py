"""Area and resistance of conductors of copper, tinned copper and aluminium."""

from __future__ import annotations

import math
from functools import cache

from diagrammer.quantity import Size
from diagrammer.tables.load import load

KCMIL = math.pi / 4 * 25.4e-3**2 * 1000  # [mm²] a thousand circles of one mil across
RHO_20 = 1 / 58  # [Ω mm²/m] at 20 °C, 100 % IACS (IEC 60028)
ALPHA_20 = 0.00393  # [1/K] of that copper (IEC 60028)
ALPHA_20_ALUMINIUM = 0.00403  # [1/K] (IEC 60889, from memory)
STRANDS = ("class 5", "class 5 tinned", "class 2", "solid")
DRAWN = {"tinned": "class 5 tinned", "aluminium": "aluminium"}  # the column of IEC 60228
NEC_COLUMN = {"class 5 tinned": "coated", "aluminium": "aluminium"}  # of NEC Chapter 9 Table 8; else stranded


@cache
def area(size: Size) -> float:
    """Cross-section of a conductor [mm²].

    AWG by the formula of ASTM B258, `d = 0.005 in * 92 ** ((36 - n) / 39)` with n = 0, -1, -2, -3 for 1/0 to 4/0;
    kcmil exactly; mm² as said.

    Raises
    ------
    ValueError
        The system of the size is none of AWG, mm², kcmil.
    """
    if size.system == "AWG":
        return math.pi / 4 * (0.127 * 92 ** ((36 - size.number) / 39)) ** 2
    if size.system == "kcmil":
        return size.number * KCMIL
    if size.system in ("mm²", "mm2"):
        return size.number
    raise ValueError(f"unknown system of conductor sizes: {size.system!r}")


def resistance(
    size: Size, length: float, temperature: float = 20.0, strands: str = "class 5", material: str = "copper"
) -> float:
    """Dc resistance of `length` [m] of conductor at `temperature` [°C], in ohm.

    Metric sizes: the maximum of IEC 60228 for the class of `strands`. AWG and kcmil: NEC Chapter 9 Table 8 (stranded,
    75 °C) for any stranding. A size between the tabulated ones takes the resistivity of the next smaller one. "solid"
    is copper of 100 % IACS of the exact area. `material` is copper, tinned (as class 5, or coated) or aluminium
    (stranded).

    Raises
    ------
    ValueError
        Unknown `strands`.
    """
    if strands not in STRANDS:
        raise ValueError(f"strands is none of {', '.join(STRANDS)}: {strands!r}")
    section = area(size)
    drawn = strands if material == "copper" else DRAWN[material]
    return resistivity(size, section, drawn) / section * length * heating(temperature, metal=material)


def heating(temperature: float, base: float = 20.0, metal: str = "copper") -> float:
    """Resistance at `temperature` over that at `base` [°C], linear in the metal's coefficient at 20 °C."""
    alpha = ALPHA_20_ALUMINIUM if metal == "aluminium" else ALPHA_20
    return (1 + alpha * (temperature - 20)) / (1 + alpha * (base - 20))


@cache
def resistivity(size: Size, section: float, strands: str) -> float:
    """Effective resistivity of a conductor over its nominal section at 20 °C [Ω mm²/m]."""
    if strands == "solid":
        return RHO_20
    if size.system in ("mm²", "mm2"):
        known = [(float(row["mm2"]), float(row[strands]) / 1000) for row in load("resistance_iec60228") if row[strands]]
    else:
        column, cold = NEC_COLUMN.get(strands, "stranded"), heating(75.0, metal=strands)
        known = [
            (area(parse_awg(row["awg"])), float(row[column]) / 304.8 / cold)
            for row in load("resistance_nec") if row[column]
        ]
    smaller = [row for row in known if row[0] <= section * (1 + 1e-9)] or known[:1]
    return math.prod(smaller[-1])


@cache
def made(system: str) -> tuple[Size, ...]:
    """The sizes of a system that are made, thin to thick: mm² by IEC 60228, AWG and kcmil by NEC Chapter 9 Table 8."""
    if system in ("mm²", "mm2"):
        return tuple(Size("mm²", float(row["mm2"])) for row in load("resistance_iec60228"))
    return tuple(parse_awg(row["awg"]) for row in load("resistance_nec"))


def parse_awg(label: str) -> Size:
    """A size as the tables write it: "14", "2/0", "250 kcmil"."""
    number, _, system = label.partition(" ")
    if system == "kcmil":
        return Size("kcmil", float(number))
    return Size("AWG", 1 - int(number[0]) if number.endswith("/0") else int(number))
