"""The legend: the symbols that a drawing really uses, each with its words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from diagrammer.layout import tags
from diagrammer.layout.scene import Box, Shape, Text
from diagrammer.lettering.width import SMALLEST, width, wrap
from diagrammer.symbols import FAMILIES
from diagrammer.symbols.symbol import Symbol

HEAD = 5.0  # [mm] height of the heading
WORDS = 27.0  # [mm] most width of an entry's words
LINES = 3
PITCH = 3.5  # [mm] from line to line
GAP = 1.2  # [mm] between rows, and from symbol to words
STEP = 7.0  # [mm] entries begin at multiples of it, so that rows stand under each other


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
    """Entries in rows, low symbols first, no wider than `most` [mm], the lower edge at `bottom`."""
    if not symbols:
        return Legend(Box(x, bottom, 0, 0), (), ())
    rows = _rows(sorted(symbols, key=_height), most)
    heights = [max(map(_height, row)) + GAP for row in rows]
    tall, wide = HEAD + sum(heights), max(sum(map(_width, row)) for row in rows)
    texts = [Text(x + 1, bottom - tall + 3.4, "Symbols", SMALLEST, "legend", bold=True)]
    shapes, y = [], bottom - tall + HEAD
    for row, high in zip(rows, heights):
        left, middle = x, y + high / 2
        for symbol in row:
            shapes.append((Shape("", symbol, left + 1 + symbol.width / 2, middle), symbol.says))
            texts += _words(symbol, left + 1 + symbol.width + GAP, middle)
            left += _width(symbol)
        y += high
    return Legend(Box(x, bottom - tall, wide, tall), tuple(shapes), tuple(texts))


def _rows(symbols: Sequence[Symbol], most: float) -> list[list[Symbol]]:
    """As many in a row as go; one at least."""
    rows: list[list[Symbol]] = [[]]
    for symbol in symbols:
        if rows[-1] and sum(map(_width, rows[-1])) + _width(symbol) > most:
            rows.append([])
        rows[-1].append(symbol)
    return rows


def _lines(symbol: Symbol) -> tuple[str, ...]:
    return wrap(symbol.says, SMALLEST, WORDS, LINES)


def _width(symbol: Symbol) -> float:
    """[mm] of an entry with the space after it."""
    words = max(width(line, SMALLEST) for line in _lines(symbol))
    return math.ceil((symbol.width + words + GAP + 3) / STEP) * STEP


def _height(symbol: Symbol) -> float:
    return max(symbol.height, PITCH * len(_lines(symbol)))


def _words(symbol: Symbol, x: float, middle: float) -> list[Text]:
    lines = _lines(symbol)
    return [
        Text(x, middle + tags.CAPS / 2 + PITCH * (n - (len(lines) - 1) / 2), line, SMALLEST, "legend")
        for n, line in enumerate(lines)
    ]
