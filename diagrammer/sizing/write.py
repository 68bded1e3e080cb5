"""The choice written into the text of a netlist: insertions only, so that every comment stays."""

from __future__ import annotations

from diagrammer.netlist.model import System
from diagrammer.quantity import Size
from diagrammer.sizing.unknown import Choice, Unknown
from diagrammer.text.place import Place
from diagrammer.text.source import Source
from diagrammer.text.parse import parse
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree


class Unwritable(ValueError):
    """A place where a size can't be put in by program; the message names it."""


def write(source: Source, system: System, choice: Choice) -> str:
    """The text with sizes and ratings put in.

    Raises Unwritable where an entry stands in a form in which that can't be done.
    """
    unknown, inserts = Unknown(system), []
    tree, _ = parse(source)
    entries = tree.get("circuits").items
    for circuit, entry in zip(system.circuits, entries, strict=True):
        if circuit.name in unknown.lines and circuit.name in choice.sizes:
            inserts.append(_wire(source, entry, choice.sizes[circuit.name]))
    for name, node in unknown.devices.items():
        inserts.append(_rating(source, tree, name, node.place, node.declared, choice.ratings[name]))
    return _put(source, inserts)


def _wire(source: Source, entry: Mapping, size: Size) -> tuple[int, int, str]:
    tree = entry.get("wire")
    if tree is None:
        return _new_entry(source, entry, f"wire: {size.label}")
    return _into(source, tree, size)


def _into(source: Source, tree: Tree, size: Size) -> tuple[int, int, str]:
    if isinstance(tree, Scalar):
        return _before_length(tree, size)
    if isinstance(tree, Sequence) and tree.items and isinstance(tree.items[0], Scalar):
        return _before_length(tree.items[0], size)
    if isinstance(tree, Mapping):
        for key in ("hops", "feed"):
            inner = tree.get(key)
            if inner is not None:
                return _into(source, inner, size)
        return _new_entry(source, tree, f"size: {size.label}")
    raise Unwritable(f"line {tree.place.line}: the size can't be put into this wire")


def _before_length(scalar: Scalar, size: Size) -> tuple[int, int, str]:
    """Before the length, behind `N parallel`."""
    words = scalar.text.split()
    skip = 2 if len(words) > 1 and words[1] == "parallel" else 0
    start = len(" ".join(words[:skip])) + 1 if skip else 0
    at = scalar.part(start, start + 1) if start < len(scalar.text) else scalar.place
    return at.line, at.column + (at == scalar.place and not scalar.plain), f"{size.label} "


def _new_entry(source: Source, entry: Mapping, text: str) -> tuple[int, int, str]:
    """A further entry of a mapping: behind the last one in { }, on a line of its own in block style."""
    last = entry.entries[-1]
    end = last[1].place
    if entry.flow:
        return end.end_line, end.end_column, f", {text}"
    first = entry.entries[0][0].place
    line = _last_line(source, end)
    return line, len(source.lines[line - 1]) + 1, f"\n{' ' * (first.column - 1)}{text}"


def _last_line(source: Source, end: Place) -> int:
    """The line on which a value ends, also where its end mark stands at the start of the next one."""
    line = end.end_line
    while line > 1 and (line > len(source.lines) or not source.lines[line - 1][: end.end_column - 1].strip()):
        line -= 1
        end = Place(end.file, end.line, end.column, line, len(source.lines[line - 1]) + 2)
    return line


def _rating(source: Source, tree: Mapping, name: str, place: Place, declared: bool, amps: float) -> tuple[int, int, str]:
    if not declared:
        return place.end_line, place.end_column, f" {amps:g} A"
    node = tree.get("nodes").get(name)
    return _new_entry(source, node, f"rating: {amps:g} A")


def _put(source: Source, inserts: list[tuple[int, int, str]]) -> str:
    lines = list(source.lines)
    for line, column, text in sorted(inserts, reverse=True):
        lines[line - 1] = lines[line - 1][: column - 1] + text + lines[line - 1][column - 1 :]
    return "\n".join(lines)
