"""A charge controller between a photovoltaic array and a battery."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "solar-charger", ("=", "="), {
        "pv": (0, -4.5), "main": (0, 4.5), "load": (4.5, 0), "sense": (4.5, 2.5), "earth": (-4.5, 2),
    },
    "dc converter", "IEC 60617 S00893, number and shape from memory",
)
