"""The legend: the symbols that a drawing really uses, each with its words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from diagrammer.layout import tags
from diagrammer.layout.scene import Box, Shape, Text
from diagrammer.lettering.width import SMALLEST, wrap
from diagrammer.symbols import FAMILIES
from diagrammer.symbols.symbol import Symbol

HEAD = 5.0  # [mm] height of the heading
WORDS = 27.0  # [mm] width of an entry's words
LINES = 3
PITCH = 3.5  # [mm] from line to line
GAP = 1.6  # [mm] between entries, and from symbol to words


@dataclass(frozen=True)
class Legend:
    """A legend at its place; its words are in `texts`, once more beside each shape."""

    box: Box
    shapes: tuple[tuple[Shape, str], ...]
    texts: tuple[Text, ...]


def used(shapes: Sequence[Shape]) -> tuple[Symbol, ...]:
    """Each symbol once, in the order of first use, as it is before layout stretches it; what looks
    and says the same is one."""
    seen: dict[str, Symbol] = {}
    for shape in shapes:
        if shape.symbol.says not in seen:
            seen[shape.symbol.says] = _natural(shape.symbol)
    return tuple(seen.values())


def _natural(symbol: Symbol) -> Symbol:
    named = (family.get(symbol.name, symbol) for family in FAMILIES.values())
    return next((one for one in named if one.source == symbol.source), symbol)


def legend(symbols: Sequence[Symbol], x: float, bottom: float, most: float) -> Legend:
    """Entries row by row in columns of one width, no wider than `most` [mm], lower edge at `bottom`."""
    wide = max((symbol.width for symbol in symbols), default=0.0)
    column = wide + WORDS + 2 * GAP
    columns = max(1, min(len(symbols), int(most // column)))
    bands = [symbols[n:n + columns] for n in range(0, len(symbols), columns)]
    heights = [max(_height(symbol) for symbol in band) + GAP for band in bands]
    tall = HEAD + sum(heights) if symbols else 0.0
    box = Box(x, bottom - tall, column * columns if symbols else 0.0, tall)
    texts = [Text(x + 1.5, box.y + 3.4, "Symbols", SMALLEST, "legend", bold=True)] if symbols else []
    shapes, y = [], box.y + HEAD
    for band, tall in zip(bands, heights):
        for index, symbol in enumerate(band):
            left, middle = x + index * column, y + tall / 2
            shapes.append((Shape("", symbol, left + GAP / 2 + wide / 2, middle), symbol.says))
            texts += _words(symbol, left + wide + 1.5 * GAP, middle)
        y += tall
    return Legend(box, tuple(shapes), tuple(texts))


def _height(symbol: Symbol) -> float:
    return max(symbol.height, PITCH * len(wrap(symbol.says, SMALLEST, WORDS, LINES)))


def _words(symbol: Symbol, x: float, middle: float) -> list[Text]:
    lines = wrap(symbol.says, SMALLEST, WORDS, LINES)
    return [
        Text(x, middle + tags.CAPS / 2 + PITCH * (n - (len(lines) - 1) / 2), line, SMALLEST, "legend")
        for n, line in enumerate(lines)
    ]
