"""A battery charger fed from alternating current."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "charger-ac", ("~", "="), {
        "in": (0, -4.5), "main": (0, 4.5), "2": (-3, 4.5), "3": (3, 4.5), "sense": (4.5, 2), "earth": (-4.5, 2),
    },
    "rectifier", "IEC 60617 S00894, number and shape from memory",
)
