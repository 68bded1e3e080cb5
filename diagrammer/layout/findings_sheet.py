"""Sheets that hold nothing but findings: the table in columns, read downwards, and from sheet to sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from diagrammer.frozen import frozen
from diagrammer.layout import findings_table, legend, paper as papers, sheet as sheets
from diagrammer.layout.findings_table import Table
from diagrammer.layout.paper import paper
from diagrammer.layout.scene import Row
from diagrammer.layout.sheet import CAUTION, Furniture
from diagrammer.symbols.symbol import Symbol

Columns = tuple[tuple[Row, ...], ...]


@frozen
class Spread:
    """Rows in columns on sheets, as many in each as go; on the first of them a legend too, where it has room.

    places: x, height and width [mm] of a sheet's columns.
    """

    sheets: tuple[Columns, ...] = ()
    places: tuple[tuple[float, float, float], ...] = ()
    symbols: tuple[Symbol, ...] = ()
    weights: tuple[str, ...] = ()

    def whereabouts(self, first: int) -> dict[int, int]:
        """Number of each finding to that of its sheet, the first of which is `first`."""
        return {row.number: n for n, columns in enumerate(self.sheets, first) for column in columns for row in column}


def spread(size: str, rows: Sequence[Row], symbols: Sequence[Symbol] = (), weights: Sequence[str] = ()) -> Spread:
    """Rows on sheets of their own. symbols, weights: for a legend at the lower left of the first of them."""
    places = _places(size, bool(symbols))
    room, wide = [high for _, high, _ in places], places[0][2]
    columns: list[list[Row]] = [[]]
    for row in (findings_table.rewrapped(row, wide) for row in rows):
        if columns[-1] and findings_table.height([*columns[-1], row]) > room[(len(columns) - 1) % len(room)]:
            columns.append([])
        columns[-1].append(row)
    filled = [tuple(column) for column in columns if column]
    made = [tuple(filled[n:n + len(room)]) for n in range(0, len(filled), len(room))]
    if not made:
        return Spread()
    made = [*made[:-1], _level([row for column in made[-1] for row in column], room)]
    if symbols and not _goes_under(size, made[0], symbols, weights):
        return spread(size, rows)
    return Spread(tuple(made), tuple(places), tuple(symbols), tuple(weights) if symbols else ())


def _goes_under(size: str, columns: Columns, symbols: Sequence[Symbol], weights: Sequence[str]) -> bool:
    """Whether a legend goes into what a sheet's columns leave of its left side."""
    frame = paper(size).frame
    wide, high = legend.size(symbols, frame.width - findings_table.WIDTH - sheets.GAP, weights)
    left = findings_table.height(columns[0]) if len(_places(size, True)) > 1 else 0.0
    return wide + findings_table.WIDTH < frame.width and left + high + sheets.GAP < frame.height


def _level(rows: Sequence[Row], room: Sequence[float]) -> Columns:
    """The rows of the last sheet in columns of about one height, the left one the higher."""
    for cut in range(1, len(rows)) if len(room) > 1 else ():
        left, right = findings_table.height(rows[:cut]), findings_table.height(rows[cut:])
        if right <= left <= room[0] and right <= room[1]:
            return tuple(rows[:cut]), tuple(rows[cut:])
    return (tuple(rows),)


def findings_sheet(size: str, number: int, count: int, block: Mapping[str, str], every: Spread) -> Furniture:
    """Sheet `number` of `count`; those of `every` are the last ones."""
    frame, first = paper(size).frame, count - len(every.sheets) + 1
    tables = []
    for n, (rows, (x, _, wide)) in enumerate(zip(every.sheets[number - first], every.places)):
        bottom, heading = frame.y + findings_table.height(rows), _heading(every.sheets, number, first, n)
        tables.append(findings_table.table(rows, x, bottom, *heading, wide))
    symbols, weights = (every.symbols, every.weights) if number == first else ((), ())
    taken = tuple(table.box for table in tables)
    return _joined(sheets.furnish(size, number, count, block, (), symbols, weights=weights, taken=taken), tables)


def _joined(bare: Furniture, tables: Sequence[Table]) -> Furniture:
    return Furniture(
        bare.width, bare.height, bare.area, bare.taken,
        (*bare.texts, *(text for table in tables for text in table.texts)),
        (*bare.rules, *(rule for table in tables for rule in table.rules)),
        tuple(row for table in tables for row in table.rows), bare.legend, bare.keys,
    )


def _heading(every: Sequence[Columns], number: int, first: int, column: int) -> tuple[str, str]:
    """Words of a column's heading; at its end how many findings there are, or where they go on."""
    at = number - first
    parts = [f"from sheet {number - 1}"] if at and not column else []
    if not at and not column:
        parts = [findings_table.summary([row for sheet in every for rows in sheet for row in rows])]
    if column == len(every[at]) - 1 and at < len(every) - 1:
        parts.append(f"continued on sheet {number + 1}")
    return "Findings, continued" if at or column else "Findings", ", ".join(parts) or " "


def _places(size: str, aside: bool) -> list[tuple[float, float, float]]:
    """x, height and width [mm] of each column: on a wide sheet one at the left from edge to edge and one at the right
    above the title block; else one there, as wide as the sheet, or as the title block with a legend aside."""
    frame, wide = paper(size).frame, findings_table.WIDTH
    high = frame.height - sheets.stack_height((), CAUTION)
    right = (frame.x + frame.width - wide, high, wide)
    if frame.width >= 2 * wide + 2 * papers.MARK:
        return [(frame.x, frame.height, wide), right]
    return [right] if aside else [(frame.x, high, frame.width)]


def reference(numbers: Sequence[int], here: bool, explained: Sequence[int] = ()) -> str:
    """"Findings: sheets 2 and 3. Legend: sheet 3" beside the caution of a drawing of which these stand elsewhere, some
    findings or all. explained: the numbers of the sheets with its legend, none where it has one."""
    found = f"{'More findings' if here else 'Findings'}: {_said(numbers)}" if numbers else ""
    return ". ".join(part for part in (found, f"Legend: {_said(explained)}" if explained else "") if part)


def _said(numbers: Sequence[int]) -> str:
    *some, last = map(str, numbers)
    return f"sheets {', '.join(some)} and {last}" if some else f"sheet {last}"
