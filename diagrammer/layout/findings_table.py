"""The findings table: which mark stands where, and what it says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from diagrammer.frozen import frozen
from diagrammer.layout import tags
from diagrammer.layout.paper import Rule, outline
from diagrammer.layout.scene import Box, Row, Text
from diagrammer.lettering.width import SMALLEST, wrap

WIDTH = 180.0  # [mm]
ZONE, RULE, WORDS = 9.0, 17.0, 56.0  # [mm] where the columns begin; the mark's is the first
EDGE = 1.5  # [mm] free at the right
PITCH = 3.7  # [mm] from line to line
HEAD = 5.5  # [mm] height of the heading
LEAST = tags.FLAG + 1.4  # [mm] height of a row
LINES = 4  # of text in a row at most
PLURALS = {"danger": "dangers", "warning": "warnings", "notice": "notices"}


@frozen
class Table:
    """A table at its place: rows with `at` set."""

    box: Box
    texts: tuple[Text, ...]
    rules: tuple[Rule, ...]
    rows: tuple[Row, ...]


def row(number: int, severity: str, zone: str, rule: str, message: str, accepted: bool = False) -> Row:
    """A row, its message wrapped to the column."""
    return Row(number, severity, zone, rule, wrap(message, SMALLEST, WIDTH - EDGE - WORDS, LINES), accepted)


def rewrapped(entry: Row, wide: float) -> Row:
    """The same for a table of another width."""
    words = " ".join(entry.text)
    return entry if wide == WIDTH else replace(entry, text=wrap(words, SMALLEST, wide - EDGE - WORDS, LINES))


def row_height(entry: Row) -> float:
    """[mm]"""
    names = wrap(entry.rule, SMALLEST, WORDS - RULE - 1, LINES)
    return max(LEAST, PITCH * max(len(entry.text), len(names)) + 1.6)


def height(rows: Sequence[Row]) -> float:
    """[mm] with the heading; 0 without rows."""
    return HEAD + sum(map(row_height, rows)) if rows else 0.0


def table(
    rows: Sequence[Row], x: float, bottom: float, heading: str = "", more: str = "", wide: float = WIDTH,
) -> Table:
    """The table with its lower edge at `bottom`. heading, more: words at the beginning and end of its head, "" for
    where its findings are and how many."""
    if not rows:
        return Table(Box(x, bottom, wide, 0), (), (), ())
    top = bottom - height(rows)
    box = Box(x, top, wide, bottom - top)
    here = all(entry.zone and "." not in entry.zone for entry in rows)
    heading = heading or ("Findings on this sheet" if here else "Findings")
    texts, placed, rules, y = [*_heading(heading, more or summary(rows), x, top, wide)], [], [], top + HEAD
    for entry in rows:
        tall = row_height(entry)
        placed.append(replace(entry, at=(x + ZONE / 2, y + tall / 2)))
        texts += _words(entry, x, y + tall / 2)
        rules.append(((x, y), (x + wide, y), 0.18))
        y += tall
    return Table(box, tuple(texts), (*rules, *outline(box, 0.35)), tuple(placed))


def _heading(words: str, more: str, x: float, top: float, wide: float) -> list[Text]:
    y = top + 3.7
    return [
        Text(x + 1.5, y, words, SMALLEST, "findings", bold=True),
        Text(x + wide - EDGE, y, more, SMALLEST, "findings", "end"),
    ]


def summary(rows: Sequence[Row]) -> str:
    """"2 dangers, 1 warning, 1 accepted"."""
    counts = Counter("accepted" if entry.accepted else entry.severity for entry in rows)
    words = ((name, plural) for name, plural in (*PLURALS.items(), ("accepted", "accepted")) if counts[name])
    return ", ".join(f"{counts[name]} {name if counts[name] == 1 else plural}" for name, plural in words)


def _words(entry: Row, x: float, middle: float) -> list[Text]:
    """Zone, rule and text, each column centred on the row's middle."""
    names = wrap(entry.rule, SMALLEST, WORDS - RULE - 1, LINES)
    columns = ((ZONE, (entry.zone,)), (RULE, names), (WORDS, entry.text))
    return [
        Text(x + left, middle + tags.CAPS / 2 + PITCH * (n - (len(lines) - 1) / 2), line, SMALLEST, "findings",
             row=entry.number)
        for left, lines in columns for n, line in enumerate(lines) if line
    ]
