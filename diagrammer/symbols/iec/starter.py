"""A starter motor: machine M, direct current."""

from __future__ import annotations

from diagrammer.symbols.strokes import machine, sink

SYMBOL = machine("starter", "M", "=", sink(8), "starter motor", "IEC 60617 machine with M and =, shape from memory")
