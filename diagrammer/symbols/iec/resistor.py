"""A resistor: a rectangle in the line."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, line, symbol, through

SYMBOL = symbol(
    "resistor", 2.5, 7,
    (line((0, -3.5), (0, -3)), box(-1.25, -3, 1.25, 3), line((0, 3), (0, 3.5))), through(7),
    "resistor", "IEC 60617 resistor, shape from memory",
)
