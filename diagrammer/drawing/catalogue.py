"""All symbols on one sheet, to be looked at: both families, upright and turned for a row."""

from __future__ import annotations

from diagrammer.drawing.symbol import place
from diagrammer.drawing.write import svg
from diagrammer.layout.scene import Line, Scene, Shape, Sheet, Text
from diagrammer.lettering.width import SMALLEST
from diagrammer.symbols import FAMILIES
from diagrammer.symbols.symbol import Symbol

CELL, COLUMNS, LEAD = (50.0, 24.0), 8, 3.0


def catalogue() -> str:
    """An SVG of every symbol: at 0 and at 270 degrees, with short lines at its ports."""
    every = [(family, symbol) for family, symbols in FAMILIES.items() for symbol in symbols.values()]
    shapes, lines, texts = [], [], []
    for index, (family, symbol) in enumerate(every):
        x, y = (index % COLUMNS) * CELL[0] + 14, (index // COLUMNS) * CELL[1] + 16
        texts.append(Text(x - 12, y - 11, f"{symbol.name} ({family})", SMALLEST, "name"))
        for turn, dx in ((0, 0), (270, 20)):
            shape = Shape(f"{family}-{symbol.name}-{turn}", symbol, x + dx, y, turn, symbol.says)
            shapes.append(shape)
            lines += _leads(shape)
    width, height = COLUMNS * CELL[0], (len(every) // COLUMNS + 1) * CELL[1]
    sheet = Sheet(1, 1, "", width, height, "Symbols", tuple(shapes), lines=tuple(lines), texts=tuple(texts))
    return svg(sheet, Scene("Symbols", "All symbols, upright and turned for a row.", (sheet,)))


def _leads(shape: Shape) -> list[Line]:
    away = {"up": (0, -LEAD), "down": (0, LEAD), "left": (-LEAD, 0), "right": (LEAD, 0)}
    symbol: Symbol = shape.symbol
    ends = {(at, away[symbol.sides[port]]) for port, at in symbol.ports.items()}
    return [
        Line("", f"{shape.node}.{n}", (place(shape, at), place(shape, (at[0] + dx, at[1] + dy))), "return")
        for n, (at, (dx, dy)) in enumerate(sorted(ends))
    ]
