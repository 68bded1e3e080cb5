"""A transformer with separate windings: two circles that meet."""

from __future__ import annotations

from diagrammer.symbols.strokes import circle, symbol, through

SYMBOL = symbol(
    "transformer", 5, 8, (circle((0, -1.5), 2.5), circle((0, 1.5), 2.5)),
    {**through(8), "in": (0, -4), "out": (0, 4), "earth": (-2.5, 1.5)},
    "transformer", "IEC 60617 transformer, form 1, shape from memory",
)
