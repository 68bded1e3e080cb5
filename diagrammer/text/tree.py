"""A text as a tree of values with places: what YAML is to the rest of the program.

Every scalar stays a string: `no`, `off` and `12:30` are words.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import field

from diagrammer.frozen import frozen
from diagrammer.text.place import Place
from diagrammer.text.source import Source


@frozen(slots=True)
class Scalar:
    text: str
    place: Place
    source: Source
    plain: bool = True
    _found: list[list[Stretch]] = field(default_factory=list, compare=False, repr=False)  # once they are asked for

    def part(self, start: int, end: int) -> Place:
        """The place of text[start:end], also where the scalar is quoted or folded over lines."""
        if not self._found:
            self._found.append(_stretches(self))
        stretches = self._found[0]
        if not stretches or start >= len(self.text):
            return self.place
        first = _spot(stretches, start)
        last = _spot(stretches, max(start, min(end, len(self.text)) - 1))
        return Place(self.place.file, *first, last[0], last[1] + 1)


Stretch = tuple[int, int, int]  # index in a text, and the line and column from where it stands as written


def _spot(stretches: list[Stretch], index: int) -> tuple[int, int]:
    start, line, column = next(one for one in reversed(stretches) if one[0] <= index)
    return line, column + index - start


def _stretches(scalar: Scalar) -> list[Stretch]:
    """One for each line that a scalar is folded over; none where escapes make the places unsure."""
    text, lines = scalar.text, scalar.source.lines
    start, line, column = 0, scalar.place.line, scalar.place.column + (not scalar.plain)
    found = []
    while line <= len(lines):
        found.append((start, line, column))
        written = lines[line - 1][column - 1 :]
        if written.startswith(text[start:]):
            return found
        alike = _alike(text, start, written.rstrip())
        start += alike
        if start >= len(text) or text[start] not in " \n" or written[alike:].strip():
            return []
        line, column = _next_word(lines, line)
        start += 1
    return []


def _alike(text: str, start: int, written: str) -> int:
    """How many characters from `start` are as written."""
    pairs = zip(text[start : start + len(written)], written, strict=False)
    return next((n for n, (a, b) in enumerate(pairs) if a != b), min(len(written), len(text) - start))


def _next_word(lines: tuple[str, ...], line: int) -> tuple[int, int]:
    line += 1
    while line <= len(lines) and not lines[line - 1].strip():
        line += 1
    text = lines[line - 1] if line <= len(lines) else ""
    return line, len(text) - len(text.lstrip()) + 1


@frozen(slots=True)
class Mapping:
    entries: tuple[tuple[Scalar, Tree], ...]
    place: Place
    flow: bool = False
    empty: frozenset[str] = frozenset()  # keys that stand there without a value

    def __iter__(self) -> Iterator[tuple[Scalar, Tree]]:
        return iter(self.entries)

    def get(self, name: str) -> Tree | None:
        return next((value for key, value in self.entries if key.text == name), None)

    def key(self, name: str) -> Scalar | None:
        return next((key for key, _ in self.entries if key.text == name), None)


@frozen(slots=True)
class Sequence:
    items: tuple[Tree, ...]
    place: Place
    flow: bool = False


Tree = Scalar | Mapping | Sequence
