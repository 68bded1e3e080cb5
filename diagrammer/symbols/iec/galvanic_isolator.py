"""A galvanic isolator: diodes both ways in one case, so that small voltages are blocked."""

from __future__ import annotations

from diagrammer.symbols.strokes import area, box, line, symbol, through

DOWN = (line((-1.5, -2.5), (-1.5, 2.5)), area((-2.75, -1), (-0.25, -1), (-1.5, 1)), line((-2.75, 1), (-0.25, 1)))
UP = (line((1.5, -2.5), (1.5, 2.5)), area((0.25, 1), (2.75, 1), (1.5, -1)), line((0.25, -1), (2.75, -1)))

SYMBOL = symbol(
    "galvanic-isolator", 7, 8,
    (
        box(-3.5, -4, 3.5, 4), line((0, -4), (0, -2.5)), line((-1.5, -2.5), (1.5, -2.5)),
        *DOWN, *UP, line((-1.5, 2.5), (1.5, 2.5)), line((0, 2.5), (0, 4)),
    ),
    through(8), "galvanic isolator",
    "no symbol of its own in IEC 60617: two diodes diode in an outline, common practice",
)
