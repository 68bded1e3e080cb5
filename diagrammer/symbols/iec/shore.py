"""Shore supply: the public supply, and the inlet where its cord is plugged in."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import arc, box, line, source, symbol

SYMBOL = symbol(
    "shore", 8, 11,
    (
        box(-4, -5.5, 4, -1.5), line((0, -1.5), (0, 0.25)), arc((-2, 2.25), (0, 0.25), (2, 2.25)),
        box(-0.4, 1.25, 0.4, 4, filled=True), line((0, 4), (0, 5.5)),
    ),
    {**source(11), "earth": (4, -3.5)}, "shore supply and inlet",
    "IEC 60617 plug and socket below a supply marked ~, from memory",
    (Letter((0, -3.5), "~", 3.2),),
)
