"""A distribution panel: a thick line with its ways."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol

SYMBOL = symbol(
    "panel", 7, 8,
    (line((-2, -4), (-2, 4), heavy=True), *(line((-2, y), (3.5, y)) for y in (-2.5, 0, 2.5))),
    {"1": (-2, -4), "2": (-2, 4), "main": (-2, -4), "earth": (-2, 4)},
    "distribution panel", "IEC 60617 conductor drawn thick with its ways, common practice",
)
