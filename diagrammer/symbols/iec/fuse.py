"""A fuse: a narrow rectangle with the conductor straight through it."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, line, symbol, through

SYMBOL = symbol(
    "fuse", 3, 7, (box(-1.5, -3.5, 1.5, 3.5), line((0, -3.5), (0, 3.5))), through(7),
    "fuse", "IEC 60617 S00362, number and shape from memory",
)
