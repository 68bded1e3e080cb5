"""Chassis, hull or engine block as a conductor: a stroke with a rake below."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol

SYMBOL = symbol(
    "chassis", 6, 5,
    (
        line((0, -2.5), (0, 0.5)), line((-2, 0.5), (2.5, 0.5)),
        *(line((x, 0.5), (x - 1, 2.5)) for x in (-2, 0.25, 2.5)),
    ),
    {"1": (0, -2.5), "main": (0, -2.5)}, "chassis, hull or engine block",
    "IEC 60617 S00203, number and shape from memory",
)
