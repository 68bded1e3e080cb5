"""A wind generator: machine G under a rotor."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import area, circle, symbol

HUB = (0, -4)
BLADES = (
    area(HUB, (0.6, -4.9), (0, -7), (-0.2, -4.9), filled=True),
    area(HUB, (0.5, -3.2), (2.6, -2.5), (0.9, -3.9), filled=True),
    area(HUB, (-1.1, -3.9), (-2.6, -2.5), (-0.7, -3.3), filled=True),
)

SYMBOL = symbol(
    "wind", 8, 14, (circle((0, 3), 4), *BLADES),
    {"1": (0, 7), "2": (-4, 3), "main": (0, 7), "earth": (4, 3)}, "wind generator",
    "IEC 60617 machine with G; the rotor is common practice",
    (Letter((0, 3), "G", 2.5),),
)
