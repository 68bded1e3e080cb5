"""A photovoltaic array: a generator whose cell is lit."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import area, box, line, source, symbol

def ray(x: float, y: float) -> tuple:
    """An arrow down to the right that ends at (x, y)."""
    return (line((x - 2.2, y - 2.2), (x, y)), area((x, y), (x - 1.2, y - 0.4), (x - 0.4, y - 1.2), filled=True))


SYMBOL = symbol(
    "pv", 9, 9,
    (
        box(-4.5, -4.5, 4.5, 4.5), line((0, 0.5), (0, 1.75)), line((-2.5, 1.75), (2.5, 1.75)),
        line((-1.25, 2.75), (1.25, 2.75), heavy=True), line((0, 2.75), (0, 4.5)), *ray(-1.7, 1), *ray(-0.5, 0),
    ),
    {**source(9), "earth": (4.5, 2)}, "photovoltaic array",
    "IEC 60617 S00908, number and shape from memory",
    (Letter((2.4, -2.5), "G", 2.5),),
)
