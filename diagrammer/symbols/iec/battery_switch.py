"""A switch that isolates as well: a stroke and a small circle at its fixed contact."""

from __future__ import annotations

from diagrammer.symbols.strokes import GAP, circle, contact, line, symbol, through

SYMBOL = symbol(
    "battery-switch", 4, 7, (*contact(3.5), line((-1, -GAP), (1, -GAP)), circle((0, -GAP + 0.5), 0.5)), through(7),
    "isolating switch", "IEC 60617 S00290 (switch-disconnector), number and shape from memory",
)
