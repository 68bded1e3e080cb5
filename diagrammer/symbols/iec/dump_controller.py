"""A controller that lets surplus energy into a resistor."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "dump-controller", ("=", "="), {"main": (0, -4.5), "dump": (0, 4.5), "earth": (-4.5, 2)},
    "dc converter", "IEC 60617 S00893, number and shape from memory",
)
