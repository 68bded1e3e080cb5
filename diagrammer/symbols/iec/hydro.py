"""A water turbine with its generator: machine G under a wave."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import arc, circle, line, source, symbol

WAVE = (arc((-3, -4), (-1.5, -5), (0, -4)), arc((0, -4), (1.5, -3), (3, -4)))

SYMBOL = symbol(
    "hydro", 8, 12, (circle((0, 2), 4), *WAVE, line((0, -6), (0, -2)),),
    {**source(12), "earth": (4, 2)}, "water-driven generator",
    "IEC 60617 S00819 with G; the wave is common practice",
    (Letter((0, 2), "G", 2.5),),
)
