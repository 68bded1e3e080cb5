"""A text with its name and lines; bytes become text here and nowhere else."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from diagrammer.text.finding import Problem
from diagrammer.text.place import Place

LIMIT = 4 * 1024 * 1024  # [bytes] some thirty thousand circuits; beyond it is no netlist

_ODD = re.compile("[^\t\n\x20-\x7e\xa0-\u2027\u202f-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")


@dataclass(frozen=True)
class Source:
    file: str
    text: str
    lines: tuple[str, ...] = field(repr=False)

    def place(self, line: int, column: int, length: int = 1) -> Place:
        """`length` characters of one line, both counted from 1."""
        return Place(self.file, line, column, line, column + length)


def source(text: str, file: str) -> Source:
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    return Source(file, text, tuple(text.split("\n")))


def decode(data: bytes, file: str) -> Source | Problem:
    """The text of a file's bytes, or what hinders reading it."""
    start = Place(file, 1, 1, 1, 2)
    if len(data) > LIMIT:
        return Problem(start, f"the file is {len(data):,} bytes long; a netlist has at most {LIMIT:,}")
    try:
        return source(data.decode("utf-8"), file)
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
        line, column = before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
        return Problem(
            Place(file, line, column, line, column + 1),
            f"byte {data[error.start]:#04x} is not UTF-8", "Save the file as UTF-8.",
        )


def odd_characters(text: Source) -> tuple[Problem, ...]:
    """Tabs outside comments, control characters, invisible marks that turn the reading direction."""
    found = []
    for number, line in enumerate(text.lines, 1):
        if line.isascii() and line.isprintable():
            continue
        comment = re.search(r"(^|\s)#", line)
        tab = line.find("\t")
        if tab >= 0 and not (comment and comment.start() < tab):
            found.append(Problem(text.place(number, tab + 1), "a tab", "Use spaces."))
        for odd in list(_ODD.finditer(line))[:3]:
            code = f"U+{ord(odd.group()):04X}"
            found.append(Problem(text.place(number, odd.start() + 1), f"the invisible character {code}", "Remove it."))
        if len(found) > 20:
            break
    return tuple(found)
