"""A switch: a blade, open, hinged at its lower end."""

from __future__ import annotations

from diagrammer.symbols.strokes import contact, symbol, through

SYMBOL = symbol("switch", 4, 7, contact(3.5), through(7), "switch", "IEC 60617 S00227, number and shape from memory")
