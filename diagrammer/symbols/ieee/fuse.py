"""A fuse: a curve between two terminals."""

from __future__ import annotations

from diagrammer.symbols.strokes import arc, circle, symbol, through

SYMBOL = symbol(
    "fuse", 3, 7,
    (
        circle((0, -3), 0.5), arc((0, -2.5), (1.25, -1.25), (0, 0)),
        arc((0, 0), (-1.25, 1.25), (0, 2.5)), circle((0, 3), 0.5),
    ),
    through(7), "fuse", "IEEE 315 fuse, alternative shape, from memory",
)
