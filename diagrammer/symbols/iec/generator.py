"""A generating set: machine G, alternating current."""

from __future__ import annotations

from diagrammer.symbols.strokes import machine, source

SYMBOL = machine(
    "generator", "G", "~", {**source(8), "earth": (4, 0)}, "generating set",
    "IEC 60617 machine with G and ~, shape from memory",
)
