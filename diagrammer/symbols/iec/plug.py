"""A plug in its socket: a pin that enters a half circle."""

from __future__ import annotations

from diagrammer.symbols.strokes import arc, box, line, symbol, through

SYMBOL = symbol(
    "plug", 4, 7,
    (
        line((0, -3.5), (0, -1.75)), arc((-2, 0.25), (0, -1.75), (2, 0.25)),
        box(-0.4, -0.75, 0.4, 2, filled=True), line((0, 2), (0, 3.5)),
    ),
    through(7), "plug and socket", "IEC 60617 plug and socket, shape from memory",
)
