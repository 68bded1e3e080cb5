"""A charge-splitting isolator: a contact that a voltage-sensing unit moves."""

from __future__ import annotations

from diagrammer.symbols.symbol import Letter
from diagrammer.symbols.strokes import box, contact, dash, symbol, through

SYMBOL = symbol(
    "isolator", 14, 7,
    (*contact(3.5), dash((-1, 0), (-3.5, 0)), box(-7, -1.75, -3.5, 1.75)),
    {**through(7), "ground": (-7, 0)}, "charge-splitting isolator",
    "IEC 60617 S00227 with a sensing unit U, common practice", (Letter((-5.25, 0), "U", 2),),
)
