"""A water turbine with its generator: machine G under waves."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import arc, circle, symbol

WAVES = tuple(
    arc((x, y), (x + 1.5, y + rise), (x + 3, y)) for y in (-5.3, -3.5) for x, rise in ((-3, -0.7), (0, 0.7))
)

SYMBOL = symbol(
    "hydro", 8, 12, (circle((0, 2), 4), *WAVES),
    {"1": (0, 6), "2": (-4, 2), "main": (0, 6), "earth": (4, 2)}, "water-driven generator",
    "IEC 60617 machine with G; the waves are common practice",
    (Letter((0, 2), "G", 2.5),),
)
