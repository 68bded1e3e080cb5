"""Every table says where its numbers come from, column by column."""

import re

import pytest

from diagrammer.tables.load import head, lines, load, names

WORDS = ("key", "read", "quoted", "memory", "computed", "row")


@pytest.mark.parametrize("name", names())
def test_head(name):
    said = head(name)
    assert all(said[key] for key in ("about", "source", "clause", "edition", "provenance"))
    columns = dict(re.fullmatch(r"(.+) (\w+)", part).groups() for part in said["provenance"].split(", "))
    assert set(columns.values()) <= set(WORDS)
    cells = {c for c in load(name)[0] if not c.startswith("provenance")}
    assert set(columns) == cells
    for row in load(name):
        marks = {v for k, v in row.items() if k.startswith("provenance") and v}
        assert marks <= {"read", "quoted", "memory", "computed"}
    if "row" in columns.values():
        assert any(column.startswith("provenance") for column in load(name)[0])


@pytest.mark.parametrize("name", names())
def test_every_row_has_every_column(name):
    for row in load(name):
        assert None not in row and None not in row.values()


def test_comments_stand_at_the_head_only():
    for name in names():
        marks = [line.startswith("#") for line in lines(name)]
        assert marks == sorted(marks, reverse=True)


def test_unknown_table():
    with pytest.raises(FileNotFoundError):
        load("nowhere")
