"""A circuit-breaker: a switch with a saltire at its fixed contact."""

from __future__ import annotations

from diagrammer.symbols.strokes import GAP, contact, cross, symbol, through

SYMBOL = symbol(
    "breaker", 4, 7, (*contact(3.5), *cross(0, -GAP)), through(7),
    "circuit-breaker", "IEC 60617 S00287, number and shape from memory",
)
