"""A dc-to-dc converter."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "converter", ("=", "="), {"in": (0, -4.5), "main": (0, 4.5), "enable": (-4.5, -2), "earth": (-4.5, 2)},
    "dc converter", "IEC 60617 S00893, number and shape from memory",
)
