"""A battery management unit: contacts in one case that its electronics open."""

from __future__ import annotations

from diagrammer.symbols.strokes import box, contact, dash, line, symbol

SYMBOL = symbol(
    "bms", 14, 12,
    (
        box(-7, -6, 7, 6), line((-3.5, -6), (-3.5, -4)), line((-3.5, -4), (3.5, -4)),
        *contact(4, -3.5), *contact(4, 3.5), line((-3.5, 4), (-3.5, 6)), line((3.5, 4), (3.5, 6)),
        dash((-4.5, 0), (2.5, 0)),
    ),
    {
        "1": (-3.5, -6), "2": (-3.5, 6), "battery": (-3.5, -6), "load": (-3.5, 6), "charge": (3.5, 6),
        "supply": (-7, -2), "sense": (-7, 2), "allow-load": (7, -2), "allow-charge": (7, 2),
    },
    "battery management with its contacts", "IEC 60617 contacts S00227 in an outline, common practice",
)
