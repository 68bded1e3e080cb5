"""A bar: a thick line that circuits tap."""

from __future__ import annotations

from diagrammer.symbols.strokes import line, symbol

SYMBOL = symbol(
    "bar", 10, 3,
    (
        line((-5, 0), (5, 0), heavy=True), line((0, -1.5), (0, 0)),
        line((2.5, 0), (2.5, 1.5)), line((-2.5, 0), (-2.5, 1.5)),
    ),
    {"1": (0, -1.5), "2": (2.5, 1.5), "main": (0, -1.5)}, "bar", "IEC 60617 conductor drawn thick, common practice",
)
