"""YAML as a tree of texts with places. The only file that knows PyYAML.

Every scalar stays a string (`no`, `off` and `12:30` are words); tags, anchors, aliases, duplicate
keys and empty values are problems with a place of their own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import yaml

from diagrammer.text.finding import Problem
from diagrammer.text.place import Place
from diagrammer.text.source import Source, odd_characters
from diagrammer.text.suggest import shortened

DEPTH = 30  # levels; a netlist needs five
LENGTH = 4000  # characters of one text; a long path has two hundred
_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(frozen=True)
class Scalar:
    text: str
    place: Place
    source: Source
    plain: bool = True

    def part(self, start: int, end: int) -> Place:
        """The place of text[start:end], also where the scalar is quoted or folded over lines."""
        spots = self._spots
        if not spots or start >= len(spots):
            return self.place
        first, last = spots[start], spots[max(start, min(end, len(spots)) - 1)]
        return Place(self.place.file, *first, last[0], last[1] + 1)

    @cached_property
    def _spots(self) -> list[tuple[int, int]]:
        """(line, column) of each character, or nothing where escapes make that unsure."""
        line, column = self.place.line, self.place.column
        lines, spots = self.source.lines, []
        if not self.plain:
            column += 1
        for char in self.text:
            if line > len(lines):
                return []
            spots.append((line, column))
            if char in " \n" and not lines[line - 1][column - 1 :].strip():
                line, column = _next_word(lines, line)
                continue
            if char != "\n" and lines[line - 1][column - 1 : column] != char:
                return []
            column += 1
        return spots


def _next_word(lines: tuple[str, ...], line: int) -> tuple[int, int]:
    line += 1
    while line <= len(lines) and not lines[line - 1].strip():
        line += 1
    text = lines[line - 1] if line <= len(lines) else ""
    return line, len(text) - len(text.lstrip()) + 1


@dataclass(frozen=True)
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


@dataclass(frozen=True)
class Sequence:
    items: tuple[Tree, ...]
    place: Place
    flow: bool = False


Tree = Scalar | Mapping | Sequence


class _Stop(Exception):
    """Reading can't go on."""


class _Builder:
    def __init__(self, source: Source):
        self.source = source
        self.problems: list[Problem] = []
        self.stack: list[tuple[yaml.Event, list[Tree]]] = []
        self.root: Tree | None = None

    def build(self) -> None:
        try:
            for event in yaml.parse(self.source.text, Loader=_Loader):
                self.take(event)
        except yaml.MarkedYAMLError as error:
            self.unreadable(error)
        except yaml.YAMLError as error:
            self.problems.append(Problem(Place(self.source.file, 1, 1, 1, 2), f"not YAML: {error}"))
        except _Stop:
            pass

    def unreadable(self, error: yaml.MarkedYAMLError) -> None:
        mark = error.problem_mark or error.context_mark
        said = " ".join(str(part) for part in (error.context, error.problem) if part)
        line, column = self.spot(mark) if mark else (1, 1)
        self.problems.append(Problem(self.source.place(line, column), f"this is not YAML: {said}", _advice(said)))

    def spot(self, mark: yaml.Mark) -> tuple[int, int]:
        """Line and column of a mark, inside the text."""
        line = min(mark.line, len(self.source.lines) - 1)
        return line + 1, min(mark.column, len(self.source.lines[line])) + 1

    def place(self, event: yaml.Event) -> Place:
        return Place(self.source.file, *self.spot(event.start_mark), *self.spot(event.end_mark))

    def take(self, event: yaml.Event) -> None:
        if isinstance(event, yaml.DocumentStartEvent) and self.root is not None:
            self.stop(self.place(event), "a second document", "A netlist is one document: remove the `---`.")
        if getattr(event, "anchor", None) or isinstance(event, yaml.AliasEvent):
            self.stop(self.place(event), "an anchor or alias (`&`, `*`)", "Write the value out, or use `parts`.")
        if getattr(event, "tag", None) is not None:
            self.stop(self.place(event), "a tag (`!`)", "Put quotes round a text that begins with `!`.")
        if isinstance(event, yaml.ScalarEvent):
            self.scalar(event)
        elif isinstance(event, (yaml.MappingStartEvent, yaml.SequenceStartEvent)):
            if len(self.stack) >= DEPTH:
                self.stop(self.place(event), f"nested more than {DEPTH} levels deep")
            self.stack.append((event, []))
        elif isinstance(event, (yaml.MappingEndEvent, yaml.SequenceEndEvent)):
            self.close(event)

    def stop(self, place: Place, message: str, advice: str = "") -> None:
        self.problems.append(Problem(place, message, advice))
        raise _Stop

    def scalar(self, event: yaml.ScalarEvent) -> None:
        place = self.place(event)
        if len(event.value) > LENGTH:
            self.problems.append(Problem(place, f"a text of {len(event.value):,} characters; at most {LENGTH:,} are read"))
        self.add(Scalar(event.value[:LENGTH], place, self.source, not event.style))

    def add(self, tree: Tree) -> None:
        if self.stack:
            self.stack[-1][1].append(tree)
        else:
            self.root = tree

    def close(self, event: yaml.Event) -> None:
        start, items = self.stack.pop()
        place, flow = self.place(start).to(self.place(event)), bool(start.flow_style)
        if isinstance(start, yaml.SequenceStartEvent):
            for item in items:
                if _is_empty(item):
                    self.problems.append(Problem(item.place, "an entry of a list is empty", "Write it or remove it."))
            self.add(Sequence(tuple(item for item in items if not _is_empty(item)), place, flow))
        else:
            self.add(self.mapping(items, place, flow))

    def mapping(self, items: list[Tree], place: Place, flow: bool) -> Mapping:
        seen: dict[str, Scalar] = {}
        entries, empty = [], set()
        for key, value in zip(items[::2], items[1::2], strict=True):
            if not isinstance(key, Scalar):
                self.problems.append(Problem(key.place, "a key must be a single word or phrase"))
            elif key.text in seen:
                line = seen[key.text].place.line
                message = f"`{shortened(key.text)}` a second time (the first is in line {line})"
                self.problems.append(Problem(key.place, message, "Keep one."))
            elif _is_empty(value):
                before = entries[-1][1] if entries else None
                self.problems.append(Problem(key.place, *_empty(key.text, flow, before)))
                empty.add(key.text)
            else:
                entries.append((key, value))
            if isinstance(key, Scalar):
                seen.setdefault(key.text, key)
        return Mapping(tuple(entries), place, flow, frozenset(empty))


def _is_empty(tree: Tree) -> bool:
    return isinstance(tree, Scalar) and tree.text == "" and tree.plain


def _empty(key: str, flow: bool, before: Tree | None) -> tuple[str, str]:
    if flow and key[:1].isdigit():
        if isinstance(before, Scalar) and before.text[-1:].isdigit() and key[:3].isdigit():
            return f"`{key}` stands alone", "A comma parts entries inside { }: write a number without a thousands mark."
        return f"`{key}` stands alone", "A comma parts entries inside { }: part size and length by a space."
    if flow:
        return f"`{shortened(key)}` has no value", "Inside { } an entry is `name: value`; a comma parts it from the next."
    return f"`{shortened(key)}` has no value", "Write a value behind it, indent what belongs to it, or remove the line."


def _advice(said: str) -> str:
    if "mapping values are not allowed" in said:
        return "A text with `: ` in it needs quotes; or the indentation is off."
    if "flow" in said:
        return "A `{` or `[` is not closed, or a comma is missing."
    if "block" in said or "indent" in said:
        return "The indentation differs from the lines above."
    return ""


def parse(source: Source) -> tuple[Tree | None, tuple[Problem, ...]]:
    """The tree of a YAML text, and every problem met; the tree is None where nothing can be read."""
    odd = odd_characters(source)
    if odd:
        return None, odd
    builder = _Builder(source)
    builder.build()
    return builder.root, tuple(builder.problems)
