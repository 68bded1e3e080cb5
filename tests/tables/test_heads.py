"""Every table says where its numbers come from, column by column."""

import pytest

from diagrammer.tables.load import columns, head, lines, load, names, provenance

WORDS = ("key", "read", "quoted", "memory", "computed", "row")


@pytest.mark.parametrize("name", names())
def test_head(name):
    said = head(name)
    assert all(said[key] for key in ("about", "source", "clause", "edition", "provenance"))
    told = columns(name)
    assert set(told.values()) <= set(WORDS)
    cells = {c for c in load(name)[0] if not c.startswith("provenance")}
    assert set(told) == cells
    for row in load(name):
        marks = {v for k, v in row.items() if k.startswith("provenance") and v}
        assert marks <= {"read", "quoted", "memory", "computed"}
    for row in load(name):
        for column, word in told.items():
            assert word == "key" or not row[column] or provenance(name, row, column) in WORDS[1:5]


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
