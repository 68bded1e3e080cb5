"""A distribution panel for alternating current."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import line, symbol

SYMBOL = symbol(
    "ac-panel", 8, 8,
    (line((-1.5, -4), (-1.5, 4), heavy=True), *(line((-1.5, y), (3.5, y)) for y in (-2.5, 0, 2.5))),
    {"1": (-1.5, -4), "2": (-1.5, 4), "main": (-1.5, -4), "earth": (-1.5, 4)},
    "ac distribution panel", "IEC 60617 conductor drawn thick with its ways, common practice",
    (Letter((-2.9, 0), "~", 2.5),),
)
