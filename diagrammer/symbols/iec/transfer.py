"""A transfer switch: two blades, of which one at most is closed."""

from __future__ import annotations

from diagrammer.symbols.strokes import area, box, contact, dash, line, symbol

SYMBOL = symbol(
    "transfer", 14, 10,
    (
        box(-7, -5, 7, 5), *contact(4, -4, -1), *contact(4, 4, -1), line((-4, 3), (4, 3)), line((0, 3), (0, 5)),
        dash((-5, -1), (3, -1)), area((-1.4, -0.2), (0.2, -0.2), (-0.6, -1.6)),
    ),
    {"1": (-4, -5), "2": (4, -5), "common": (0, 5), "main": (0, 5), "earth": (-7, 2)},
    "transfer switch, interlocked", "IEC 60617 S00227 twice with mechanical interlock, number and shape from memory",
)
