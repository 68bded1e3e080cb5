"""An inverter: direct current becomes alternating."""

from __future__ import annotations

from diagrammer.symbols.strokes import converter

SYMBOL = converter(
    "inverter", ("=", "~"), {
        "main": (0, -4.5), "pv": (0, -4.5), "out": (0, 4.5), "enable": (-4.5, -2), "earth": (-4.5, 2),
    },
    "inverter", "IEC 60617 S00896, number and shape from memory",
)
