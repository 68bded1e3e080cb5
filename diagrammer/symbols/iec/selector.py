"""A battery selector: one moving contact, several positions."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, circle, line, symbol

SYMBOL = symbol(
    "selector", 10, 8,
    (
        box(-5, -4, 5, 4),
        line((-3, -4), (-3, -2.5)), circle((-3, -2), 0.5), line((3, -4), (3, -2.5)), circle((3, -2), 0.5),
        line((0, 4), (0, 2.5)), circle((0, 2), 0.5), line((-0.25, 1.57), (-2.2, -1.8)),
    ),
    {"1": (-3, -4), "2": (3, -4), "common": (0, 4), "main": (0, 4), "coil": (-5, 1)},
    "selector switch", "IEC 60617 multi-position switch, shape from memory",
)
