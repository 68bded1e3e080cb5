"""Sheets that hold nothing but findings: the table in columns, read downwards, and from sheet to sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from diagrammer.layout import findings_table, paper as papers, sheet as sheets, title_block
from diagrammer.layout.findings_table import Table
from diagrammer.layout.paper import paper
from diagrammer.layout.scene import Box, Row
from diagrammer.layout.sheet import CAUTION, Furniture

Columns = tuple[tuple[Row, ...], ...]


def spread(size: str, rows: Sequence[Row]) -> list[Columns]:
    """Rows in columns on sheets, as many in each as go."""
    room = [high for _, high in _places(size)]
    columns: list[list[Row]] = [[]]
    for row in rows:
        if columns[-1] and findings_table.height([*columns[-1], row]) > room[(len(columns) - 1) % len(room)]:
            columns.append([])
        columns[-1].append(row)
    filled = [tuple(column) for column in columns if column]
    made = [tuple(filled[n:n + len(room)]) for n in range(0, len(filled), len(room))]
    return [*made[:-1], _level([row for column in made[-1] for row in column], room)] if made else []


def _level(rows: Sequence[Row], room: Sequence[float]) -> Columns:
    """The rows of the last sheet in columns of about one height, the left one the higher."""
    for cut in range(1, len(rows)) if len(room) > 1 else ():
        left, right = findings_table.height(rows[:cut]), findings_table.height(rows[cut:])
        if right <= left <= room[0] and right <= room[1]:
            return tuple(rows[:cut]), tuple(rows[cut:])
    return (tuple(rows),)


def whereabouts(every: Sequence[Columns], first: int) -> dict[int, int]:
    """Number of each finding to that of its sheet, the first of which is `first`."""
    return {row.number: n for n, columns in enumerate(every, first) for column in columns for row in column}


def findings_sheet(size: str, number: int, count: int, block: Mapping[str, str], every: Sequence[Columns]) -> Furniture:
    """Sheet `number` of `count`; `every` holds the columns of all sheets of findings, which are the last ones."""
    frame, first = paper(size).frame, count - len(every) + 1
    tables = [
        findings_table.table(rows, x, frame.y + findings_table.height(rows), *_heading(every, number, first, n))
        for n, (rows, (x, _)) in enumerate(zip(every[number - first], _places(size)))
    ]
    bare = sheets.furnish(size, number, count, block, taken=tuple(table.box for table in tables))
    return _joined(bare, tables)


def _joined(bare: Furniture, tables: Sequence[Table]) -> Furniture:
    return Furniture(
        bare.width, bare.height, bare.area, bare.taken,
        (*bare.texts, *(text for table in tables for text in table.texts)),
        (*bare.rules, *(rule for table in tables for rule in table.rules)),
        tuple(row for table in tables for row in table.rows), (), (),
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


def _places(size: str) -> list[tuple[float, float]]:
    """x and height [mm] of each column: at the left of a wide sheet from edge to edge, at the right above the
    title block."""
    frame, wide = paper(size).frame, findings_table.WIDTH
    right = (frame.x + frame.width - wide, frame.height - sheets.stack_height((), CAUTION))
    return [(frame.x, frame.height), right] if frame.width >= 2 * wide + 2 * papers.MARK else [right]


def reference(numbers: Sequence[int], here: bool) -> str:
    """"Findings: sheets 2 and 3" beside the caution of a drawing whose findings stand elsewhere, some or all."""
    if not numbers:
        return ""
    *some, last = map(str, numbers)
    words = f"sheets {', '.join(some)} and {last}" if some else f"sheet {last}"
    return f"{'More findings' if here else 'Findings'}: {words}"
