"""A heating element: a resistor with strokes across."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, line, sink, symbol

SYMBOL = symbol(
    "heater", 3, 7,
    (box(-1.5, -3.5, 1.5, 3.5), *(line((-1.5, y), (1.5, y)) for y in (-1.75, 0, 1.75))), sink(7) | {"earth": (1.5, 0)},
    "heating element", "IEC 60617 heating element, shape from memory",
)
