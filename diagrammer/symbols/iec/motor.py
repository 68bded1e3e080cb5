"""A motor: a circle with M."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import circle, sink, symbol

SYMBOL = symbol(
    "motor", 6, 6, (circle((0, 0), 3),), sink(6) | {"earth": (3, 0)}, "motor",
    "IEC 60617 machine with M, shape from memory", (Letter((0, 0), "M", 2.2),),
)
