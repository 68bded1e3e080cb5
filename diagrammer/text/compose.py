"""Trees as YAML text again: one-line style, and the remarks that a tree does not hold."""

from __future__ import annotations

import re
from collections.abc import Iterator

from diagrammer.frozen import frozen
from diagrammer.text.source import Source
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

_FIRST = r"(?!-(?:\s|$))[^\s,\[\]{}#&*!|>'\"%@`?:]"  # what a bare text may begin with
_PLAIN = re.compile(_FIRST + r"(?:[^,\[\]{}?]*[^\s,\[\]{}?:])?")  # inside { }
_BLOCK = re.compile(_FIRST + r"(?:.*[^\s:])?")  # outside


@frozen
class Remark:
    """A comment: where its `#` stands, and whether nothing stands before it."""

    line: int
    column: int
    text: str
    alone: bool


def flow(tree: Tree, inside: bool = True) -> str:
    """A tree in one line; `inside` braces a comma needs quotes. Raises ValueError where line ends matter."""
    if isinstance(tree, Mapping):
        return "{" + ", ".join(f"{flow(key)}: {flow(value)}" for key, value in tree) + "}"
    if isinstance(tree, Sequence):
        return f"[{', '.join(flow(item) for item in tree.items)}]"
    return scalar(tree.text, tree.plain, inside)


def scalar(text: str, plain: bool = True, inside: bool = True) -> str:
    """A text as YAML: bare where it may be, else in single quotes. Raises ValueError on a line end."""
    if "\n" in text:
        raise ValueError("a text over several lines")
    if plain and (_PLAIN if inside else _BLOCK).fullmatch(text) and ": " not in text and " #" not in text:
        return text
    return "'" + text.replace("'", "''") + "'"


def scalars(tree: Tree) -> Iterator[Scalar]:
    """Every text of a tree, keys too, in file order."""
    if isinstance(tree, Scalar):
        yield tree
    for key, value in tree if isinstance(tree, Mapping) else ():
        yield key
        yield from scalars(value)
    for item in tree.items if isinstance(tree, Sequence) else ():
        yield from scalars(item)


def last_line(tree: Tree) -> int:
    """The line in which a tree ends; a block ends with its last text."""
    if isinstance(tree, Scalar) or tree.flow or not (tree.entries if isinstance(tree, Mapping) else tree.items):
        return tree.place.end_line
    return max(last_line(value)
               for value in ([value for _, value in tree] if isinstance(tree, Mapping) else tree.items))


def remarks(source: Source, tree: Tree) -> dict[int, Remark]:
    """The comments of a text by their lines: what begins with a `#` behind a space and stands in no text."""
    covered: dict[int, list[tuple[int, int]]] = {}
    for one in scalars(tree):
        for line in range(one.place.line, one.place.end_line + 1):
            start = one.place.column - 1 if line == one.place.line else 0
            end = one.place.end_column - 1 if line == one.place.end_line else len(source.lines[line - 1])
            covered.setdefault(line, []).append((start, end))
    found = {}
    for number, line in enumerate(source.lines, 1):
        for sign in re.finditer(r"(?:^|(?<=\s))#", line):
            if not any(start <= sign.start() < end for start, end in covered.get(number, ())):
                found[number] = Remark(number, sign.start() + 1, line[sign.start() :].rstrip(),
                                       not line[: sign.start()].strip())
                break
    return found
