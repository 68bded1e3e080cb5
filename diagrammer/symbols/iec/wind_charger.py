"""A charge controller between a wind or water generator and a battery."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "wind-charger", ("~", "="), {"in": (0, -4.5), "main": (0, 4.5), "dump": (4.5, 0), "earth": (-4.5, 2)},
    "rectifier", "IEC 60617 S00894, number and shape from memory",
)
