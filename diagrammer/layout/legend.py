"""The legend: the symbols and weights of line that a drawing really uses, each with its words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache, cached_property, lru_cache

from diagrammer.frozen import frozen
from diagrammer.layout import tags
from diagrammer.layout.scene import Box, Line, Shape, Text
from diagrammer.lettering.width import SMALLEST, width, wrap
from diagrammer.symbols import FAMILIES
from diagrammer.symbols.symbol import Symbol

HEAD = 5.0  # [mm] height of the heading
WORDS = 27.0  # [mm] most width of an entry's words
LINES = 3
PITCH = 3.5  # [mm] from line to line
GAP = 1.2  # [mm] between rows, and from symbol to words
STEP = 7.0  # [mm] entries begin at multiples of it, so that rows stand under each other
SAMPLE = 9.0  # [mm] of line

WEIGHTS = {
    "dc": "direct current", "ac": "alternating current", "return": "return",
    "earth": "earth or bond", "signal": "sense or control lead",
}


@frozen
class Legend:
    """A legend at its place; `keys` are samples of line. Its words are in `texts`, once more beside
    each shape."""

    box: Box
    shapes: tuple[tuple[Shape, str], ...]
    texts: tuple[Text, ...]
    keys: tuple[Line, ...] = ()


def used(shapes: Sequence[Shape]) -> tuple[Symbol, ...]:
    """Each symbol once, in the order of first use, as it is before layout stretches it; what looks
    and says the same is one."""
    seen: dict[str, Symbol] = {}
    for shape in shapes:
        if shape.symbol.says not in seen:
            seen[shape.symbol.says] = _natural(shape.symbol)
    return tuple(seen.values())


def weights(lines: Sequence[Line]) -> tuple[str, ...]:
    """The weights that lines have, in the order of WEIGHTS."""
    there = {line.weight for line in lines}
    return tuple(weight for weight in WEIGHTS if weight in there)


@lru_cache(maxsize=1024)
def _natural(symbol: Symbol) -> Symbol:
    named = (family.get(symbol.name, symbol) for family in FAMILIES.values())
    return next((one for one in named if one.source == symbol.source), symbol)


@frozen
class Entry:
    """A picture `wide` and `high` [mm], a symbol or else a line's weight, and its words."""

    wide: float
    high: float
    words: tuple[str, ...]
    symbol: Symbol | None = None
    weight: str = ""

    @cached_property
    def width(self) -> float:
        """[mm] with the space after it."""
        words = max(width(line, SMALLEST) for line in self.words)
        return math.ceil((self.wide + words + GAP + 3) / STEP) * STEP

    @cached_property
    def height(self) -> float:
        return max(self.high, PITCH * len(self.words))


def _entries(symbols: Sequence[Symbol], line_weights: Sequence[str]) -> list[Entry]:
    """Lines first, then symbols, the low ones first."""
    return [*map(_line, line_weights), *sorted(map(_drawn, symbols), key=lambda entry: entry.height)]


@cache
def _line(weight: str) -> Entry:
    return Entry(SAMPLE, 1, (WEIGHTS[weight],), weight=weight)


@lru_cache(maxsize=512)
def _drawn(one: Symbol) -> Entry:
    return Entry(_right(one) - _left(one), one.height, wrap(one.says, SMALLEST, WORDS, LINES), one)


def _left(symbol: Symbol) -> float:
    """[mm] from its centre to its leftmost stroke; the bound of many is wider on one side, for their ports' sake."""
    return min(x - stroke.radius for stroke in symbol.strokes for x, _ in stroke.points)


def _right(symbol: Symbol) -> float:
    return max(x + stroke.radius for stroke in symbol.strokes for x, _ in stroke.points)


def legend(
    symbols: Sequence[Symbol], x: float, bottom: float, most: float, line_weights: Sequence[str] = (),
) -> Legend:
    """Entries in rows no wider than `most` [mm], the lower edge at `bottom`."""
    rows = _rows(_entries(symbols, line_weights), most)
    if not rows:
        return Legend(Box(x, bottom, 0, 0), (), ())
    heights = _heights(rows)
    wide, tall = _size(rows, heights)
    texts = [Text(x + 1, bottom - tall + 3.4, "Legend", SMALLEST, "legend", bold=True)]
    shapes, keys, y = [], [], bottom - tall + HEAD
    for row, high in zip(rows, heights):
        left, middle = x + 1, y + high / 2
        for entry in row:
            if entry.symbol:
                shapes.append((Shape("", entry.symbol, left - _left(entry.symbol), middle), entry.symbol.says))
            else:
                keys.append(Line("", entry.weight, ((left, middle), (left + entry.wide, middle)), entry.weight))
            texts += _words(entry.words, left + entry.wide + GAP, middle)
            left += entry.width
        y += high
    return Legend(Box(x, bottom - tall, wide, tall), tuple(shapes), tuple(texts), tuple(keys))


def size(symbols: Sequence[Symbol], most: float, line_weights: Sequence[str]) -> tuple[float, float]:
    """Width and height [mm] of such a legend."""
    rows = _rows(_entries(symbols, line_weights), most)
    return _size(rows, _heights(rows)) if rows else (0.0, 0.0)


def _heights(rows: list[list[Entry]]) -> list[float]:
    return [max(entry.height for entry in row) + GAP for row in rows]


def _size(rows: list[list[Entry]], heights: list[float]) -> tuple[float, float]:
    return max(sum(entry.width for entry in row) for row in rows), HEAD + sum(heights)


def _rows(entries: Sequence[Entry], most: float) -> list[list[Entry]]:
    """As many in a row as go; one at least."""
    rows: list[list[Entry]] = []
    for entry in entries:
        if not rows or sum(one.width for one in rows[-1]) + entry.width > most:
            rows.append([])
        rows[-1].append(entry)
    return rows


def _words(lines: tuple[str, ...], x: float, middle: float) -> list[Text]:
    return [
        Text(x, middle + tags.CAPS / 2 + PITCH * (n - (len(lines) - 1) / 2), line, SMALLEST, "legend")
        for n, line in enumerate(lines)
    ]
