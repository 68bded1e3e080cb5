"""Published numbers, each once, in the CSV files beside this module.

Each file begins with `#` lines: what it holds, then source, clause, edition and provenance. Provenance is told per
column: key (what a row is found by), read (in the standard or a print of its table), quoted (as a quotation elsewhere),
memory (not read: verify before relying on it), computed, or row (the row's own `provenance` cell says it).
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

Row = dict[str, str]


@cache
def load(name: str) -> tuple[Row, ...]:
    """The rows of table `name`, cells as text in file order.

    Raises
    ------
    FileNotFoundError
        There is no such table.
    """
    return tuple(csv.DictReader(line for line in lines(name) if not line.startswith("#")))


@cache
def head(name: str) -> dict[str, str]:
    """What the `#` lines of table `name` say: `about`, `source`, `clause`, `edition`, `provenance`."""
    said = {"about": ""}
    for line in lines(name):
        if not line.startswith("#"):
            break
        key, colon, rest = line[1:].strip().partition(": ")
        if colon and key in ("source", "clause", "edition", "provenance"):
            said[key] = rest
        else:
            said["about"] = f"{said['about']} {line[1:].strip()}".strip()
    return said


@cache
def columns(name: str) -> dict[str, str]:
    """{column: what the head of table `name` says of its provenance}."""
    return dict(part.rsplit(" ", 1) for part in head(name)["provenance"].split(", "))


def provenance(name: str, row: Row, column: str) -> str:
    """Where one number of table `name` comes from: read, quoted, memory or computed."""
    said = columns(name)[column]
    return (row.get(f"provenance {column}") or row["provenance"]) if said == "row" else said


def lines(name: str) -> list[str]:
    return (files("diagrammer.tables") / f"{name}.csv").read_text("utf-8").splitlines()


@cache
def names() -> tuple[str, ...]:
    """Every table, in the order of the alphabet."""
    return tuple(sorted(f.name[:-4] for f in files("diagrammer.tables").iterdir() if f.name.endswith(".csv")))
