"""A circuit-breaker: an arc that bridges two terminals."""

from __future__ import annotations

from diagrammer.symbols.strokes import arc, circle, symbol, through

SYMBOL = symbol(
    "breaker", 4, 7,
    (circle((0, -3), 0.5), arc((0.6, -2.6), (2, 0), (0.6, 2.6)), circle((0, 3), 0.5)),
    through(7), "circuit-breaker", "IEEE 315 air circuit-breaker, shape from memory",
)
