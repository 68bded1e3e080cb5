"""A battery: cells in a row, the long thin stroke of each is its positive plate."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol, through

CELLS = tuple(
    stroke for y in (-1.5, 0.5) for stroke in (line((-4, y), (4, y)), line((-2, y + 1), (2, y + 1), heavy=True))
)

SYMBOL = symbol(
    "battery", 8, 7,
    (
        line((0, -3.5), (0, -1.5)), *CELLS, line((0, 1.5), (0, 3.5)),
        line((2.2, -2.7), (3.6, -2.7)), line((2.9, -3.4), (2.9, -2)),
    ),
    {**through(7), "main": (0, -3.5), "+": (0, -3.5), "-": (0, 3.5)},
    "battery", "IEC 60617 S00898, number and shape from memory",
)
