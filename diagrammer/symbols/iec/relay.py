"""A relay or contactor: a contact, and the coil that moves it."""

from __future__ import annotations

from diagrammer.symbols.strokes import arc, box, contact, dash, symbol, through

SYMBOL = symbol(
    "relay", 14, 7,
    (
        *contact(3.5), arc((0, -1.75), (0.6, -2.35), (0, -2.95)),
        dash((-1, 0), (-4, 0)), box(-7, -1.5, -4, 1.5),
    ),
    {**through(7), "coil": (-7, 0)}, "relay or contactor", "IEC 60617 contactor contact with coil, shape from memory",
)
