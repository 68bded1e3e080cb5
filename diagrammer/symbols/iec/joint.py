"""A joint: where conductors meet."""

from __future__ import annotations

from diagrammer.symbols.strokes import circle, symbol

SYMBOL = symbol(
    "joint", 1, 1, (circle((0, 0), 0.5, filled=True),),
    {"1": (0, -0.5), "2": (0, 0.5), "3": (-0.5, 0), "4": (0.5, 0), "main": (0, -0.5)}, "joint",
    "IEC 60617 connection point, shape from memory",
)
