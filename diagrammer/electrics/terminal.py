"""Ring terminals: what their hole fits, and which conductor their barrel is for."""

from __future__ import annotations

import re

from diagrammer.electrics.conductor import area
from diagrammer.frozen import frozen
from diagrammer.quantity import Size, Unreadable, size
from diagrammer.tables.load import Row, load

ALIKE = 0.05  # relative difference of section up to which a barrel of the other system is taken (common practice)
_STUD = re.compile(r"(?<![\w/])(M\d+|#\d+|\d/\d{1,2} ?in)\b")
_BARREL = re.compile(r"(?<![\w/.-])([1-4]/0(?: ?AWG)?|\d+(?:\.\d+)? ?(?:AWG|mm²|mm2))(?![\w/])")
_TUBE = re.compile(r"(?<![\w/.-])(\d+(?:\.\d+)?)-(\d+)(?![\w/-])")


@frozen
class Terminal:
    """A ring terminal as written: the stud its hole is for, and the conductor its barrel is for."""

    studs: tuple[str, ...] = ()
    barrels: tuple[Size, ...] = ()


def read(text: str) -> Terminal:
    """What a text says of terminals: "M8", "70 mm² M8", "3/8 in"; "70-8" is a tube terminal for 70 mm² and M8."""
    studs = [found.replace(" ", "").replace("in", " in") for found in _STUD.findall(text)]
    barrels = list(_BARREL.findall(text))
    for section, thread in _TUBE.findall(text):
        studs.append(f"M{thread}")
        barrels.append(f"{section} mm²")
    sizes = []
    for one in barrels:
        try:
            sizes.append(size(one))
        except Unreadable:
            continue
    return Terminal(tuple(dict.fromkeys(studs)), tuple(dict.fromkeys(sizes)))


def stud(name: str) -> Row | None:
    """The row of tables/studs.csv, None for a stud that is not listed."""
    wanted = name.replace(" ", "").casefold()
    return next((row for row in load("studs") if row["stud"].replace(" ", "").casefold() == wanted), None)


def fits_stud(hole: str, on: str) -> bool | None:
    """Whether a terminal with the usual hole for one stud seats on another; None where one is not listed.

    Its hole must pass the stud and not be larger than what still seats there.
    """
    own, other = stud(hole), stud(on)
    if own is None or other is None:
        return None
    return own is other or float(other["diameter"]) <= float(own["least"]) <= float(other["most"])


def fits_barrel(barrel: Size, conductor: Size) -> bool:
    """Whether a barrel is for this conductor: of the same section, within ALIKE for the other system of sizes."""
    return abs(area(barrel) / area(conductor) - 1) <= ALIKE


def most_on_stud(practice: str) -> int:
    """How many terminals may sit on one stud. Raises ValueError for an unknown practice."""
    for row in load("terminals_per_stud"):
        if row["practice"] == practice:
            return int(row["most"])
    raise ValueError(f"unknown practice: {practice!r}")


def largest_stud() -> float:
    """[A] that a stud of the largest listed size usually has: parts rated above it have several studs at a terminal."""
    return max(float(row["usual"]) for row in load("studs"))
