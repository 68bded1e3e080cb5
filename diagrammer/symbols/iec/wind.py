"""A wind generator: machine G under a rotor."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import circle, line, source, symbol

BLADES = tuple(line((0, -4), end) for end in ((0, -6.5), (-2.2, -2.75), (2.2, -2.75)))

SYMBOL = symbol(
    "wind", 8, 13, (circle((0, 2.5), 4), line((0, -4), (0, -1.5)), *BLADES),
    {**source(13), "earth": (4, 2.5)}, "wind generator",
    "IEC 60617 S00819 with G; the rotor is common practice",
    (Letter((0, 2.5), "G", 2.5),),
)
