"""An engine-driven alternator with its rectifier: machine G, direct current at its terminals."""

from __future__ import annotations

from diagrammer.symbols.strokes import machine, source

SYMBOL = machine(
    "alternator", "G", "=", {**source(8), "sense": (4, 0), "field": (-4, 0), "lamp": (4, 0)},
    "alternator with rectifier", "IEC 60617 machine with G and =, shape from memory",
)
