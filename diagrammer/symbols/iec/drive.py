"""A motor drive: direct current becomes three-phase of changing frequency."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "drive", ("=", "3~"), {"main": (0, -4.5), "motor": (0, 4.5), "enable": (-4.5, -2), "earth": (-4.5, 2)},
    "three-phase inverter", "IEC 60617 S00896, number and shape from memory",
)
