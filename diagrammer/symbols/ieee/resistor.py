"""A resistor: a zigzag in the line."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol, through

PEAKS = tuple((1.25 * (-1) ** n, -2.5 + n) for n in range(6))

SYMBOL = symbol(
    "resistor", 2.5, 7, (line((0, -3.5), (0, -3), *PEAKS, (0, 3), (0, 3.5)),), through(7),
    "resistor", "IEEE 315 resistor, shape from memory",
)
