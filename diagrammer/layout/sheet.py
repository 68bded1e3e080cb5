"""What stands on a sheet beside the drawing: frame, title block, findings table, caution, legend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from diagrammer.layout.scene import Box, Point, Row, Shape, Text
from diagrammer.symbols.symbol import Symbol

CAUTION = "CAUTION  Calculated from what the netlist says. Local codes and licensed practice come first."


@dataclass(frozen=True)
class Furniture:
    """Primitives of one sheet, to be put into a scene.Sheet as they are.

    width, height [mm] of the sheet. `area`: inside the frame less a margin; the drawing may stand
    anywhere in it but on the boxes `taken` (title block with table and caution, legend).
    """

    width: float
    height: float
    area: Box
    taken: tuple[Box, ...]
    texts: tuple[Text, ...]
    rules: tuple[tuple[Point, Point, float], ...]
    rows: tuple[Row, ...]
    legend: tuple[tuple[Shape, str], ...]


def area(size: str) -> Box:
    """The box inside the frame of "A3", "A4", "Letter" or "Tabloid" (all landscape), less a margin."""
    raise NotImplementedError


def zone(size: str, point: Point) -> str:
    """Field of the frame's grid, "C6": letters downwards, numbers to the right; "" where frameless."""
    raise NotImplementedError


def row(number: int, severity: str, zone: str, rule: str, message: str, accepted: bool = False) -> Row:
    """A row of the findings table, its message wrapped to the table's column."""
    raise NotImplementedError


def table_height(rows: Sequence[Row]) -> float:
    """[mm] of the findings table with its heading; 0 without rows."""
    raise NotImplementedError


def furnish(
    size: str, number: int, count: int, block: Mapping[str, str],
    rows: Sequence[Row] = (), symbols: Sequence[Symbol] = (), caution: str = CAUTION,
) -> Furniture:
    """Frame and furniture of sheet `number` of `count`.

    `block`: fields of the title block (see title_block.FIELDS: "title", "legal owner", "creator",
    "date of issue" ...), those left out stay empty. `rows` stand in the order given, directly above
    the title block; `symbols` (see legend.used) in the lower left corner. Raises ValueError for an
    unknown size or field, and where the table is higher than the frame.
    """
    raise NotImplementedError


def furnish_frameless(
    drawing: Box, rows: Sequence[Row] = (), symbols: Sequence[Symbol] = (), caution: str = CAUTION,
) -> Furniture:
    """The same without frame and title block: the table stands below the drawing, whose upper left
    corner is at `drawing`; width and height enclose it all."""
    raise NotImplementedError
