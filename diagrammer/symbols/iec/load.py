"""A load: whatever uses the energy; its name stands beside it."""

from __future__ import annotations

from diagrammer.symbols.strokes import circle, sink, symbol

SYMBOL = symbol(
    "load", 5, 5, (circle((0, 0), 2.5),), sink(5) | {"earth": (2.5, 0)}, "load",
    "IEC 60617 functional unit, shape from memory",
)
