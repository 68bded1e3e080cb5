"""A shunt: a zigzag with two sense taps."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol

PEAKS = tuple((1.25 * (-1) ** n, -2.5 + n) for n in range(6))

SYMBOL = symbol(
    "shunt", 6, 8,
    (
        line((0, -4), (0, -3), *PEAKS, (0, 3), (0, 4)),
        line((1.25, -2.5), (3, -2.5)), line((1.25, 1.5), (3, 1.5)),
    ),
    {"1": (0, -4), "2": (0, 4), "battery": (0, -4), "system": (0, 4), "sense": (3, -2.5), "midpoint": (3, 1.5)},
    "shunt", "IEEE 315 resistor with two taps, shape from memory",
)
