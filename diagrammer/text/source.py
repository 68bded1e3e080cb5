"""A text with its name and lines; bytes become text here and nowhere else."""

from __future__ import annotations

import re
from dataclasses import field
from itertools import islice

from diagrammer.frozen import frozen
from diagrammer.text.finding import Problem
from diagrammer.text.place import Place

LIMIT = 640 * 1024  # [bytes] some five thousand circuits; beyond it is no netlist

_ODD = re.compile(  # control characters, unpaired surrogates, marks without a width but joiners, direction marks
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ud800-\udfff\ufeff\ufffe\uffff]"
)
_SPACES = dict.fromkeys([0xA0, 0x1680, *range(0x2000, 0x200B), 0x202F, 0x205F, 0x3000], " ")  # category Zs of Unicode


@frozen
class Source:
    file: str
    text: str
    lines: tuple[str, ...] = field(repr=False)

    def place(self, line: int, column: int, length: int = 1) -> Place:
        """`length` characters of one line, both counted from 1."""
        return Place(self.file, line, column, line, column + length)


def source(text: str, file: str) -> Source:
    """Lines end in one way, and a space is a space: no-break and thin ones read alike, in the same columns."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    text = text if text.isascii() else text.translate(_SPACES)
    return Source(file, text, tuple(text.split("\n")))


def decode(data: bytes, file: str) -> Source | Problem:
    """The text of a file's bytes, or what hinders reading it."""
    start = Place(file, 1, 1, 1, 2)
    if len(data) > LIMIT:
        return Problem(start, f"the file is {len(data):,} bytes long; a netlist has at most {LIMIT:,}")
    try:
        return source(data.decode("utf-8"), file)
    except UnicodeDecodeError as error:
        before = source(data[: error.start].decode("utf-8"), file).lines
        line, column = len(before), len(before[-1]) + 1
        return Problem(
            Place(file, line, column, line, column + 1),
            f"byte {data[error.start]:#04x} is not UTF-8", "Save the file as UTF-8.",
        )


def odd_characters(text: Source) -> tuple[Problem, ...]:
    """Tabs outside comments, control characters, invisible marks such as those that turn the reading direction."""
    found = []
    for number, line in enumerate(text.lines, 1):
        if line.isascii() and line.isprintable():
            continue
        comment = re.search(r"(^|\s)#", line)
        tab = line.find("\t")
        if tab >= 0 and not (comment and comment.start() < tab):
            found.append(Problem(text.place(number, tab + 1), "a tab", "Use spaces."))
        for odd in islice(_ODD.finditer(line), 3):
            code = f"U+{ord(odd.group()):04X}"
            found.append(Problem(text.place(number, odd.start() + 1), f"the invisible character {code}", "Remove it."))
        if len(found) > 20:
            break
    return tuple(found)
