"""A residual-current device: a switch moved by a core round the conductors."""

from __future__ import annotations

from diagrammer.symbols.strokes import contact, dash, line, ring, symbol, through

SYMBOL = symbol(
    "rcd", 5, 10,
    (
        *contact(3.5, y=-1.5), line((0, 2), (0, 5)), *ring(3.25),
        dash((-2, 3.25), (-2.5, 3.25), (-2.5, -1.5), (-1, -1.5)),
    ),
    through(10), "residual-current device",
    "IEC 60617 contact S00227, moved by a current transformer round all live conductors; number and shape from memory",
)
