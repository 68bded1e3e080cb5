"""Earth: three strokes, each shorter than the one above."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol

SYMBOL = symbol(
    "earth", 5, 5,
    (line((0, -2.5), (0, 0.5)), *(line((-half, y), (half, y)) for half, y in ((2.5, 0.5), (1.6, 1.5), (0.7, 2.5)))),
    {"1": (0, -2.5), "main": (0, -2.5)}, "earth", "IEC 60617 S00200, number and shape from memory",
)
