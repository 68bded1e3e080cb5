"""Sixth phase: pieces on sheets.

Before: the roots of the forest. After: every piece lies on one sheet, inside its frame, on nothing
else; what did not fit beside the rest stands on a further sheet with paired references; nothing
was made smaller.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

from diagrammer.frozen import changing
from diagrammer.layout import legend, sheet as sheets
from diagrammer.layout.p4_blocks.block import Block, Extent
from diagrammer.layout.scene import Box, Line, Row, Shape
from diagrammer.symbols.symbol import Symbol

APART = 3  # cells of the raster between pieces
CLEAR = 3.0  # [mm] from title block, table and legend
WIDEST = 380.0  # [mm] of a frameless drawing, that of the default sheet


CELL = 2.0  # [mm] of the raster on which pieces are kept apart
Mask = list[int]  # a row of cells each, cell n being bit n


def mask(extents: list[Extent], margin: float, left: float, top: float) -> Mask:
    """The cells that boxes cover with a margin round them, counted from `left` and `top`."""
    rows: dict[int, int] = {}
    for l, t, r, b in extents:
        first, last = int((l - margin - left) // CELL), int((r + margin - left) // CELL)
        bits = (1 << (max(last, 0) + 1)) - (1 << max(first, 0))
        for y in range(max(0, int((t - margin - top) // CELL)), int((b + margin - top) // CELL) + 1):
            rows[y] = rows.get(y, 0) | bits
    return [rows.get(y, 0) for y in range(max(rows, default=-1) + 1)]


class Piece:
    """A block as pages see it: its raster, its symbols, and the findings that belong to it. low: it
    goes to the foot of a sheet rather than to its head."""

    def __init__(self, block: Block, low: bool = False) -> None:
        self.block, self.low = block, low
        self.rows: list[Row] = []
        self.items = block.every()  # not at their places: what there is
        self.shapes = [item for item in self.items if isinstance(item, Shape)]
        self.extents = block.extents()
        self.wide, self.high = block.right - block.left, block.bottom - block.top
        self.symbols = {symbol.says: symbol for symbol in legend.used(self.shapes)}
        self.weights = {item.weight for item in self.items if isinstance(item, Line)}
        self.fits: bool | None = None  # on a sheet of its own, once that is known
        self.bare = mask(self.extents, 0.0, block.left, block.top)

    @cached_property
    def wideset(self) -> Mask:
        """Its raster with room round it; begins APART cells further to the left and top."""
        rows = [0] * APART + self.bare + [0] * APART
        for _ in range(2 * APART):
            rows = [bits | bits << 1 for bits in rows]
        for _ in range(APART):
            rows = [a | b | c for a, b, c in zip([0, *rows], rows, [*rows[1:], 0])]
        return rows

    @property
    def cells(self) -> int:
        """How many cells it takes with half the room round it that it may share."""
        return sum(bits.bit_count() for bits in self.wideset)


@changing
class Page:
    """One sheet while it fills: pieces with their places, rows of the findings table, legend or not."""

    size: str
    places: list[tuple[Piece, float, float]] = field(default_factory=list)
    filled: dict[int, int] = field(default_factory=dict)  # raster of the pieces with room round them
    solid: dict[int, int] = field(default_factory=dict)  # and without
    rows: list[Row] = field(default_factory=list)
    refused: list[tuple[float, float]] = field(default_factory=list)  # width and height of what had no place
    symbols: dict[str, Symbol] = field(default_factory=dict)  # by what they say, in the order of first use
    weights: set[str] = field(default_factory=set)  # of lines explained here
    legend: float = 1.0  # share of the room beside the title block that it may take, 0 for none
    table: bool = True  # the findings of its pieces stand here
    hosts: bool = False  # and so do those of pages without a table
    guests: dict[str, Symbol] = field(default_factory=dict)  # of pages without a legend, explained here

    @cached_property
    def area(self) -> Box:
        return sheets.area(self.size) if self.size else Box(sheets.GAP, sheets.GAP, WIDEST, 4000.0)

    def furniture(self, rows: list[Row], symbols: Mapping[str, Symbol], weights: set[str]) -> Mask:
        """Room of title block, table and legend."""
        if not self.size:
            return []
        symbols = tuple(symbols.values()) if self.legend else ()
        keys = tuple(weight for weight in legend.WEIGHTS if weight in weights) if self.legend else ()
        key = self.size, self.legend, symbols, keys, tuple(row.text for row in rows)
        if key not in _TAKEN:
            taken = sheets.taken(self.size, rows, symbols, keys, self.legend)
            boxes = [(b.x, b.y, b.x + b.width, b.y + b.height) for b in taken]
            _TAKEN.clear() if len(_TAKEN) > 200 else None
            _TAKEN[key] = mask(boxes, CLEAR, self.area.x, self.area.y)
        return _TAKEN[key]

    def place(self, piece: Piece, rows: list[Row]) -> bool:
        """Put a piece in the first free place, from the top and left; False where there is none."""
        if any(piece.wide >= wide and piece.high >= high for wide, high in self.refused):
            return False
        spot = self.free(piece, rows)
        if spot is None:
            self.refused += [] if rows else [(piece.wide, piece.high)]
            return False
        self.put(piece, *spot)
        self.rows += rows
        return True

    def free(self, piece: Piece, rows: list[Row]) -> tuple[float, float] | None:
        """Where the upper left corner of a piece would go, with its rows in the table."""
        try:
            furniture = self.furniture([*self.rows, *rows], self.symbols | piece.symbols, self.weights | piece.weights)
        except ValueError:
            return None
        if self.meets(furniture):
            return None
        return self._spot(piece, furniture)

    def has_room(self, rows: list[Row], symbols: Mapping[str, Symbol], weights: set[str]) -> bool:
        """Whether its pieces leave the room that such a table and such a legend take."""
        try:
            return not self.meets(self.furniture(rows, symbols, weights))
        except ValueError:
            return False

    def put(self, piece: Piece, x: float, y: float) -> None:
        """x, y: of the piece's upper left corner."""
        self.places.append((piece, x - piece.block.left, y - piece.block.top))
        self.symbols |= piece.symbols
        self.weights = self.weights | piece.weights
        shift, row = round((x - self.area.x) / CELL) - APART, round((y - self.area.y) / CELL) - APART
        for number, bits in enumerate(piece.wideset):
            moved = bits << shift if shift >= 0 else bits >> -shift
            self.filled[row + number] = self.filled.get(row + number, 0) | moved
        for number, bits in enumerate(piece.bare, row + APART):
            self.solid[number] = self.solid.get(number, 0) | bits << shift + APART

    def meets(self, furniture: Mask, shift: int = 0) -> bool:
        """Whether pieces lie under furniture, or would if they were moved to the right."""
        return any(furniture[y] & bits << shift for y, bits in self.solid.items() if y < len(furniture))

    def _spot(self, piece: Piece, furniture: Mask) -> tuple[float, float] | None:
        area = self.area
        columns, lines = int((area.width - piece.wide) // CELL), int((area.height - piece.high) // CELL)
        if columns < 0 or lines < 0:
            return None
        blocked = dict(self.filled)
        for y, bits in enumerate(furniture):
            blocked[y] = blocked.get(y, 0) | bits
        rows = [(number, bits) for number, bits in enumerate(piece.bare) if bits]
        for y in range(lines, -1, -2) if piece.low else range(0, lines + 1, 2):
            met = [(blocked[y + number], bits) for number, bits in rows if y + number in blocked]
            x = 0
            while x <= columns:
                other, bits = next((pair for pair in met if pair[0] & pair[1] << x), (0, 0))
                if not other:
                    return area.x + x * CELL, area.y + y * CELL
                while other & bits << x:
                    x += 2
        return None

    def explained(self) -> None:
        """A legend after all, where a narrower one meets nothing."""
        if self.legend or not self.size or not self.symbols:
            return
        for self.legend in (*SHARES, 0.0):
            if not self.meets(self.furniture(self.rows, self.symbols, self.weights)):
                return

    def centred(self) -> None:
        """Move everything to the middle of the width, where that meets nothing."""
        if not self.places or not self.size:
            return
        area = self.area
        free = area.x + area.width - max(dx + piece.block.right for piece, dx, _ in self.places)
        furniture = self.furniture(self.rows, self.symbols | self.guests, self.weights)
        for share in (0.5, 0.25):
            shift = max(0, int(free * share // CELL))
            if not self.meets(furniture, shift):
                self.places = [(piece, dx + shift * CELL, dy) for piece, dx, dy in self.places]
                self.solid = {y: bits << shift for y, bits in self.solid.items()}
                return


_TAKEN: dict[tuple, Mask] = {}  # furniture once worked out

TRIES = ((1.0, True), (0.0, True), (1.0, False), (0.0, False))  # share of the legend, rows here
SHARES = (1.0, 0.67, 0.5, 0.4)  # of the legend, if the first try left none


def alone(piece: Piece, size: str) -> bool:
    """Whether a piece fits on a sheet of its own, if need be without legend and its findings elsewhere."""
    if piece.fits is None:
        piece.fits = Page(size, legend=0.0).free(piece, []) is not None
    return piece.fits


def pages(pieces: list[Piece], size: str) -> list[Page]:
    """All pieces on pages in their order, each on the first page where it goes."""
    made: list[Page] = []
    for piece in pieces:
        if any(page.place(piece, piece.rows if page.table else []) for page in made):
            continue
        for keep, mine in TRIES:
            page = Page(size, legend=keep, table=mine)
            if page.place(piece, piece.rows if mine else []):
                piece.fits = True
                break
        else:  # larger than any sheet, as the gates will say; without a frame it may be, and takes all with it
            page = page if size else Page(size)
            page.put(piece, page.area.x, page.area.y)
            piece.fits = not size
        made.append(page)
    _host(made)
    for page in made:
        page.explained()
    _explain(made)
    for page in made:
        page.centred()
    return made


def _host(made: list[Page]) -> None:
    """Findings that have no room on their own page go to the first that has it."""
    homeless = [row for page in made if not page.table for piece, _, _ in page.places for row in piece.rows]
    for page in made if homeless else ():
        if page.table and page.has_room([*page.rows, *homeless], page.symbols, page.weights):
            page.rows, page.hosts = [*page.rows, *homeless], True
            return


def _explain(made: list[Page]) -> None:
    """Symbols that stand only on pages without room for a legend go into those that have it."""
    known = {says for page in made if page.legend for says in page.symbols}
    poor = [symbol for page in made if not page.legend for symbol in page.symbols.values()]
    lost = {symbol.says: symbol for symbol in poor if symbol.says not in known}
    lines = {weight for page in made if not page.legend for weight in page.weights}
    for page in made:
        for says in list(lost) if page.legend else ():
            more = page.guests | {says: lost[says]}
            if page.has_room(page.rows, page.symbols | more, page.weights | lines):
                page.guests, page.weights = more, page.weights | lines
                del lost[says]
