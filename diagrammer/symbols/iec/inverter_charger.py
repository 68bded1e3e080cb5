"""An inverter and charger in one: power passes both ways, and past it from inlet to outlet."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import box, line, symbol

def wide(feeds: float):
    """The symbol with its dc feed and its ac inlet `feeds` [mm] apart, both at the top."""
    half = feeds / 2 + 4
    return symbol(
        "inverter-charger", 2 * half, 10,
        (box(-half, -5, half, 5), line((-half, 5), (half, -5))),
        {
            "1": (-feeds / 2, -5), "2": (0, 5), "main": (-feeds / 2, -5), "dc": (-feeds / 2, -5),
            "in": (feeds / 2, -5), "in2": (feeds / 2 + 2.5, -5), "out": (0, 5),
            "sense": (-half, -2), "earth": (-half, 2.5),
        },
        "inverter and charger", "IEC 60617 S00897, number and shape from memory",
        (Letter((-half / 2, -2), "=", 2.5), Letter((half / 2, 2), "~", 3.5)),
    )


SYMBOL = wide(10)
