"""A distribution panel for alternating current."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import line, symbol

SYMBOL = symbol(
    "ac-panel", 8, 8,
    (line((-2, -4), (-2, 4), heavy=True), *(line((-2, y), (3.5, y)) for y in (-2.5, 0, 2.5))),
    {"1": (-2, -4), "2": (-2, 4), "main": (-2, -4), "earth": (-2, 4)},
    "ac distribution panel", "IEC 60617 conductor drawn thick with its ways, common practice",
    (Letter((-3.1, 0), "~", 2),),
)
