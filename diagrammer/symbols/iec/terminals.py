"""A strip of terminals."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, line, symbol, through

SYMBOL = symbol(
    "terminals", 9, 4,
    (box(-4.5, -2, 4.5, 2), line((-1.5, -2), (-1.5, 2)), line((1.5, -2), (1.5, 2))),
    through(4), "terminal strip", "IEC 60617 terminal strip, shape from memory",
)
