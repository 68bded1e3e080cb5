"""Anything else: an outline, its name beside it."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, symbol, through

SYMBOL = symbol(
    "other", 9, 6, (box(-4.5, -3, 4.5, 3),), {**through(6), "main": (0, -3), "earth": (4.5, 0)},
    "equipment, see its text", "IEC 60617 equipment, shape from memory",
)
