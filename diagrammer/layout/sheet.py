"""What stands on a sheet beside the drawing: frame, title block, findings table, caution, legend."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from diagrammer.frozen import frozen
from diagrammer.layout import findings_table, legend as legends, paper as papers, title_block
from diagrammer.layout.paper import Rule, outline, paper
from diagrammer.layout.scene import Box, Line, Point, Row, Shape, Text
from diagrammer.lettering.width import SMALLEST, wrap
from diagrammer.symbols.symbol import Symbol

CAUTION = (
    "CAUTION  Worked out from what the netlist says, not from the installation. Local codes come first; have a "
    "licensed person check it before anything is built or switched on."
)
MARGIN = 5.0  # [mm] between frame and drawing
GAP = 5.0  # [mm] round the drawing of a frameless sheet, and between legend and title block
PITCH = 3.7  # [mm] from line to line of the caution


@frozen
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
    rules: tuple[Rule, ...]
    rows: tuple[Row, ...]
    legend: tuple[tuple[Shape, str], ...]
    keys: tuple[Line, ...]


def area(size: str) -> Box:
    """The box inside the frame of "A3", "A4", "Letter" or "Tabloid" (all landscape), less a margin."""
    frame = paper(size).frame
    return Box(frame.x + MARGIN, frame.y + MARGIN, frame.width - 2 * MARGIN, frame.height - 2 * MARGIN)


def zone(size: str, point: Point) -> str:
    """Field of the frame's grid, "C6": letters downwards, numbers to the right; "" where frameless."""
    return papers.zone(paper(size), point) if size else ""


def row(number: int, severity: str, zone: str, rule: str, message: str, accepted: bool = False) -> Row:
    """A row of the findings table, its message wrapped to the table's column."""
    return findings_table.row(number, severity, zone, rule, message, accepted)


def table_height(rows: Sequence[Row]) -> float:
    """[mm] of the findings table with its heading; 0 without rows."""
    return findings_table.height(rows)


def stack_height(rows: Sequence[Row] = (), caution: str = CAUTION) -> float:
    """[mm] of all that stands in the lower right corner: title block, caution, findings table."""
    return title_block.HEIGHT + _caution_height(caution) + table_height(rows)


def furnish(
    size: str, number: int, count: int, block: Mapping[str, str],
    rows: Sequence[Row] = (), symbols: Sequence[Symbol] = (), caution: str = CAUTION, weights: Sequence[str] = (),
    note: str = "", taken: Sequence[Box] = (), share: float = 1.0,
) -> Furniture:
    """Frame and furniture of sheet `number` of `count`.

    `block`: fields of the title block (title_block.FIELDS: "title", "legal owner", "creator",
    "date of issue" ...), those left out stay empty; the field "sheet" is filled here. `rows` stand
    in the order given, above the title block; `symbols` (see legend.used) and `weights` of line (see
    legend.weights) in the lower left corner; `note` (bold) at the end of the caution. `taken`: what else the
    centring marks must keep clear of. `share`: of the room beside the title block, for the legend.
    Raises ValueError for an unknown size or field, and where the table is higher than the frame.
    """
    title_block.check(block)
    sheet = paper(size)
    frame, stack = sheet.frame, _stack(size, rows, caution)
    right, bottom = frame.x + frame.width, frame.y + frame.height
    box = Box(right - title_block.WIDTH, bottom - title_block.HEIGHT, title_block.WIDTH, title_block.HEIGHT)
    low, texts, rules = _caution(caution, box.x, box.y, note)
    table = findings_table.table(rows, box.x, low)
    left = legends.legend(symbols, frame.x + 1, bottom - 1, share * (frame.width - title_block.WIDTH - GAP), weights)
    filled = {**block, "sheet": f"{number}/{count}"}
    taken = tuple(one for one in (Box(box.x, bottom - stack, box.width, stack), left.box, *taken) if one.width)
    return Furniture(
        sheet.width, sheet.height, area(size), taken,
        (*papers.frame_texts(sheet), *title_block.texts(box, filled), *texts, *table.texts, *left.texts),
        (*papers.frame_rules(sheet, taken), *title_block.rules(box), *rules, *table.rules),
        table.rows, left.shapes, left.keys,
    )


def taken(size: str, rows: Sequence[Row], symbols: Sequence[Symbol], weights: Sequence[str], share: float) -> list[Box]:
    """The boxes that `furnish` would call taken. Raises ValueError as it does."""
    frame, stack = paper(size).frame, _stack(size, rows, CAUTION)
    bottom, wide = frame.y + frame.height, title_block.WIDTH
    legend_wide, high = legends.size(symbols, share * (frame.width - wide - GAP), weights)
    corner = Box(frame.x + frame.width - wide, bottom - stack, wide, stack)
    return [corner, Box(frame.x + 1, bottom - 1 - high, legend_wide, high)] if legend_wide else [corner]


def _stack(size: str, rows: Sequence[Row], caution: str) -> float:
    stack = stack_height(rows, caution)
    if stack > paper(size).frame.height:
        raise ValueError(f"{len(rows)} findings do not fit on one sheet of size {size}")
    return stack


def furnish_frameless(
    drawing: Box, rows: Sequence[Row] = (), symbols: Sequence[Symbol] = (), caution: str = CAUTION,
    weights: Sequence[str] = (),
) -> Furniture:
    """The same without frame and title block: caution, table and legend stand below the drawing.

    width and height enclose it all with a gap; the drawing must stand at (GAP, GAP) or further in.
    """
    width = max(drawing.x + drawing.width, GAP + findings_table.WIDTH) + GAP
    top = drawing.y + drawing.height + GAP
    table = findings_table.table(rows, GAP, top + table_height(rows), "Findings")
    foot = top + table_height(rows) + _caution_height(caution)
    _, texts, rules = _caution(caution, GAP, foot)
    left = legends.legend(symbols, GAP, 0.0, width - 2 * GAP, weights)
    left = legends.legend(symbols, GAP, foot + left.box.height, width - 2 * GAP, weights)
    return Furniture(
        width, foot + left.box.height + GAP, drawing,
        tuple(b for b in (Box(GAP, top, findings_table.WIDTH, foot - top), left.box) if b.width and b.height),
        (*texts, *table.texts, *left.texts), (*rules, *table.rules),
        table.rows, left.shapes, left.keys,
    )


def _caution_lines(caution: str) -> tuple[str, ...]:
    return wrap(caution, SMALLEST, title_block.WIDTH - 3, 3)


def _caution_height(caution: str) -> float:
    return PITCH * len(_caution_lines(caution)) + 1.6 if caution else 0.0


def _caution(caution: str, x: float, bottom: float, note: str = "") -> tuple[float, tuple[Text, ...], tuple[Rule, ...]]:
    """Its upper edge, words and outline, its lower edge at `bottom`."""
    top = bottom - _caution_height(caution)
    lines = enumerate(_caution_lines(caution))
    texts = [Text(x + 1.5, top + 3.4 + PITCH * n, line, SMALLEST, "caution") for n, line in lines]
    if note:
        texts.append(Text(x + title_block.WIDTH - 1.5, texts[-1].y, note, SMALLEST, "caution", "end", bold=True))
    return top, tuple(texts), outline(Box(x, top, title_block.WIDTH, bottom - top), 0.35) if caution else ()
