"""A battery charger fed from direct current."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "charger-dc", ("=", "="), {
        "in": (0, -4.5), "main": (0, 4.5), "pv": (2.5, -4.5), "enable": (-4.5, -2), "sense": (4.5, 2),
        "earth": (-4.5, 2),
    },
    "dc converter", "IEC 60617 S00893, number and shape from memory",
)
