"""A lamp: a circle with a diagonal cross."""

from __future__ import annotations

from diagrammer.symbols.strokes import circle, line, sink, symbol

DIAGONAL = 2.5 / 2**0.5

SYMBOL = symbol(
    "lamp", 5, 5,
    (
        circle((0, 0), 2.5), line((-DIAGONAL, -DIAGONAL), (DIAGONAL, DIAGONAL)),
        line((-DIAGONAL, DIAGONAL), (DIAGONAL, -DIAGONAL)),
    ),
    sink(5) | {"earth": (2.5, 0)}, "lamp", "IEC 60617 S00965, number and shape from memory",
)
