"""Sixth phase: pieces on sheets.

Before: the roots of the forest. After: every piece lies on one sheet, inside its frame, on nothing
else; what did not fit beside the rest stands on a further sheet with paired references; nothing
was made smaller.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from diagrammer.layout import legend, sheet as sheets
from diagrammer.layout.p4_blocks.block import Block, Extent
from diagrammer.layout.scene import Box, Row, Shape

APART = 9.0  # [mm] between pieces
CLEAR = 3.0  # [mm] from title block, table and legend
WIDEST = 380.0  # [mm] of a frameless drawing, that of the default sheet


@dataclass
class Page:
    """One sheet while it fills: pieces with their places, rows of the findings table, legend or not."""

    size: str
    places: list[tuple[int, float, float]] = field(default_factory=list)
    taken: list[Extent] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    shapes: list[Shape] = field(default_factory=list)
    legend: bool = True

    @property
    def area(self) -> Box:
        return sheets.area(self.size) if self.size else Box(sheets.GAP, sheets.GAP, WIDEST, 1e5)

    def furniture(self, rows: list[Row], shapes: list[Shape]) -> list[Extent]:
        """Room of title block, table and legend."""
        if not self.size:
            return []
        symbols = legend.used(shapes) if self.legend else ()
        weights = ("dc", "ac", "return", "earth", "signal") if self.legend else ()
        made = sheets.furnish(self.size, 1, 1, {}, rows, symbols, weights=weights)
        return [(b.x - CLEAR, b.y - CLEAR, b.x + b.width + CLEAR, b.y + b.height + CLEAR) for b in made.taken]

    def place(self, number: int, block: Block, rows: list[Row], shapes: list[Shape]) -> bool:
        """Put a piece in the first free place, from the left and top; False where there is none."""
        try:
            furniture = self.furniture([*self.rows, *rows], [*self.shapes, *shapes])
        except ValueError:
            return False
        detail = block.extents()
        wide, high = block.right - block.left, block.bottom - block.top
        if any(_meets(box, other) for box in furniture for other in self.taken):
            return False
        for x, y in self._corners(wide, high):
            whole = (x - APART / 2, y - APART / 2, x + wide + APART / 2, y + high + APART / 2)
            if any(_meets(whole, other) for other in self.taken):
                continue
            dx, dy = x - block.left, y - block.top
            if any(_meets(whole, b) for b in furniture) and any(
                _meets((l + dx, t + dy, r + dx, b + dy), other) for l, t, r, b in detail for other in furniture
            ):
                continue
            self.places.append((number, dx, dy))
            self.taken.append((x, y, x + wide, y + high))
            self.rows += rows
            self.shapes += shapes
            return True
        return False

    def _corners(self, wide: float, high: float) -> list[tuple[float, float]]:
        area = self.area
        xs = sorted({area.x, *(r + APART for _, _, r, _ in self.taken)})
        ys = sorted({area.y, *(b + APART for _, _, _, b in self.taken)})
        return [
            (x, y) for y in ys for x in xs
            if x + wide <= area.x + area.width + 0.01 and y + high <= area.y + area.height + 0.01
        ]

    def centred(self, blocks: list[Block]) -> None:
        """Move everything to the middle of the width, where that meets nothing."""
        if not self.places or not self.size:
            return
        area = self.area
        shift = (area.x + area.width - max(r for _, _, r, _ in self.taken)) / 2
        furniture = self.furniture(self.rows, self.shapes)
        for share in (1.0, 0.5):
            dx = round(shift * share, 1)
            if not any(
                _meets((l + x + dx, t + y, r + x + dx, b + y), other)
                for number, x, y in self.places for l, t, r, b in blocks[number].extents() for other in furniture
            ):
                self.places = [(number, x + dx, y) for number, x, y in self.places]
                self.taken = [(l + dx, t, r + dx, b) for l, t, r, b in self.taken]
                return


def _meets(a: Extent, b: Extent) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def alone(block: Block, size: str, rows: list[Row], shapes: list[Shape]) -> bool:
    """Whether a piece fits on a sheet of its own, with or without legend, its rows elsewhere if need be."""
    return any(_try(size, keep, block, rows if mine else [], shapes) for keep, mine in TRIES)


TRIES = ((True, True), (False, True), (False, False))  # legend here, rows here


def _try(size: str, keep: bool, block: Block, rows: list[Row], shapes: list[Shape]) -> Page | None:
    page = Page(size, legend=keep)
    return page if page.place(0, block, rows, shapes) else None


def pages(blocks: list[Block], size: str, rows_of: Callable[[int], list[Row]], shapes_of: list[list[Shape]]) -> tuple[list[Page], list[Row]]:
    """All pieces on pages in their order, each on the first page where it goes; rows left over."""
    made: list[Page] = []
    over: list[Row] = []
    for number, block in enumerate(blocks):
        rows, shapes = rows_of(number), shapes_of[number]
        if any(page.place(number, block, rows, shapes) for page in made):
            continue
        for keep, mine in TRIES:
            page = Page(size, legend=keep)
            if page.place(number, block, rows if mine else [], shapes):
                over += [] if mine else rows
                break
        else:
            _force(page, number, block)
            over += rows
        made.append(page)
    for page in made:
        page.centred(blocks)
    return made, over


def _force(page: Page, number: int, block: Block) -> None:
    """What is larger than any sheet starts in the corner all the same; the gates will say so."""
    area = page.area
    page.places.append((number, area.x - block.left, area.y - block.top))
    page.taken.append((area.x, area.y, area.x + block.right - block.left, area.y + block.bottom - block.top))


def cut(sizes: dict[int, tuple[float, float, str]], block: Block, area: Box, done: set[int]) -> int | None:
    """Which sub block to stand apart: the smallest that cures the width; else the widest, or highest."""
    open_ = {index: size for index, size in sizes.items() if index not in done and size[0] * size[1] > 900}
    if not open_:
        return None
    over = block.right - block.left - area.width
    if over > 0:
        enough = [i for i, (w, h, _) in open_.items() if w - 30 >= over]
        if enough:
            return min(enough, key=lambda i: (open_[i][2] not in ("panel", "ac panel"), open_[i][0] * open_[i][1]))
        return max(open_, key=lambda i: open_[i][0])
    return max(open_, key=lambda i: (open_[i][1], open_[i][0]))
