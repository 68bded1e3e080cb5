"""A shunt: a resistor with two heavy current terminals and two sense taps."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, line, symbol

SYMBOL = symbol(
    "shunt", 6, 8,
    (
        line((0, -4), (0, -3)), box(-1.5, -3, 1.5, 3), line((0, 3), (0, 4)),
        line((-1.5, -2), (-3, -2)), line((-1.5, 2), (-3, 2)),
    ),
    {"1": (0, -4), "2": (0, 4), "battery": (0, -4), "system": (0, 4), "sense": (-3, -2), "midpoint": (-3, 2)},
    "shunt", "IEC 60617 resistor with current and voltage terminals, shape from memory",
)
