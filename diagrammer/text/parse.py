"""YAML text becomes a tree. The only file that knows PyYAML.

Tags, anchors, aliases, duplicate keys and empty values are problems with a place of their own.
"""

from __future__ import annotations

import yaml

from diagrammer.text.explain import explain
from diagrammer.text.finding import Problem
from diagrammer.text.place import Place
from diagrammer.text.source import Source, odd_characters
from diagrammer.text.suggest import shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

DEPTH = 30  # levels; a netlist needs five
LENGTH = 4000  # characters of one text; a long path has two hundred
ENTRIES = 150_000  # texts in one file; a circuit and its load have some fifteen
MOST = 200  # problems; a file with more has one cause
_Loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


class _Stop(Exception):
    """Reading can't go on."""


class _Builder:
    def __init__(self, source: Source):
        self.source = source
        self.problems: list[Problem] = []
        self.stack: list[tuple[yaml.Event, list[Tree]]] = []
        self.root: Tree | None = None
        self.count = 0

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
        opened = error.context_mark if error.context_mark and error.problem_mark else None
        found, message, advice = explain(error, opened is not None and opened.line != error.problem_mark.line)
        mark = opened if found == "opened" else error.problem_mark or error.context_mark
        line, column = (mark.line, mark.column) if mark else (0, 0)
        line = min(line, len(self.source.lines) - 1)  # an error at the end may be marked behind it
        column = min(column, len(self.source.lines[line]))
        self.problems.append(Problem(self.source.place(line + 1, column + 1), message, advice))

    def place(self, event: yaml.Event) -> Place:
        start, end = event.start_mark, event.end_mark
        if end.line >= len(self.source.lines):  # the end of a text without a last line end is marked behind it
            last = len(self.source.lines)
            line = min(start.line + 1, last)
            column = min(start.column, len(self.source.lines[line - 1])) + 1
            return Place(self.source.file, line, column, last, len(self.source.lines[-1]) + 1)
        return Place(self.source.file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)

    def take(self, event: yaml.Event) -> None:
        if len(self.problems) > MOST:
            raise _Stop
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
        self.count += 1
        if self.count > ENTRIES:
            self.stop(place, f"more than {ENTRIES:,} texts; a netlist has fewer")
        if len(event.value) > LENGTH:
            self.problems.append(Problem(place,
                                         f"a text of {len(event.value):,} characters; at most {LENGTH:,} are read"))
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
            empty = [item for item in items if _is_empty(item)]
            self.problems += [Problem(item.place, "an entry of a list is empty", "Write it or remove it.")
                              for item in empty[:MOST]]
            self.add(Sequence(tuple(item for item in items if not _is_empty(item)), place, flow))
        else:
            self.add(self.mapping(items, place, flow))

    def mapping(self, items: list[Tree], place: Place, flow: bool) -> Mapping:
        seen: dict[str, Scalar] = {}
        entries, empty = [], set()
        for key, value in zip(items[::2], items[1::2], strict=True):
            if len(self.problems) > MOST:
                break
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
        if isinstance(before, Scalar) and before.text[-1:].isdigit():
            return f"`{key}` stands alone", "A number has a decimal point and no thousands mark: a comma parts entries."
        return f"`{key}` stands alone", "A comma parts entries inside { }: part size and length by a space."
    if flow:
        return f"`{shortened(key)}` has no value", "Inside { } write `name: value`; a comma parts it from the next."
    return f"`{shortened(key)}` has no value", "Write a value behind it, indent what belongs to it, or remove the line."


def parse(source: Source) -> tuple[Tree | None, tuple[Problem, ...]]:
    """The tree of a YAML text, and every problem met; the tree is None where nothing can be read."""
    odd = odd_characters(source)
    if odd:
        return None, odd
    builder = _Builder(source)
    builder.build()
    return builder.root, tuple(builder.problems)
