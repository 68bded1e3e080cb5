"""A diode: a triangle that points the way current flows, against a bar."""

from __future__ import annotations

from diagrammer.symbols.strokes import area, line, symbol, through

SYMBOL = symbol(
    "diode", 4, 7,
    (line((0, -3.5), (0, 3.5)), area((-2, -1.75), (2, -1.75), (0, 1.75)), line((-2, 1.75), (2, 1.75))),
    through(7), "diode", "IEC 60617 diode, shape from memory",
)
