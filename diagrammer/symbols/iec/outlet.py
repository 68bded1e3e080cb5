"""A socket outlet with protective contact: a half circle open to the load, a bar at its crown."""

from __future__ import annotations

from diagrammer.symbols.strokes import arc, line, symbol

SYMBOL = symbol(
    "outlet", 5, 5,
    (line((0, -2.5), (0, 0)), arc((-2.5, 2.5), (0, 0), (2.5, 2.5)), line((-2.5, 0), (2.5, 0))),
    {"1": (0, -2.5), "main": (0, -2.5), "earth": (2.5, 0)}, "socket outlet with protective contact",
    "IEC 60617 socket outlet with protective contact, shape from memory",
)
