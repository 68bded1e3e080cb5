"""A residual-current device with overcurrent protection: a circuit-breaker moved by a core."""

from __future__ import annotations

from diagrammer.symbols.strokes import GAP, contact, cross, dash, line, ring, symbol, through

SYMBOL = symbol(
    "rcbo", 5, 10,
    (
        *contact(3.5, y=-1.5), *cross(0, -1.5 - GAP), line((0, 2), (0, 5)), *ring(3.25),
        dash((-2, 3.25), (-2.5, 3.25), (-2.5, -1.5), (-1, -1.5)),
    ),
    through(10), "residual-current circuit-breaker with overcurrent protection",
    "IEC 60617 S00287, moved by a current transformer round all live conductors; number and shape from memory",
)
