"""A netlist in the house style: what it means stays the same, and so does every remark.

One node a line, aligned; a circuit in one line where it fits, else an entry a line; one space between number and
unit, ` -> ` and `/` in paths. What holds remarks in its midst keeps its lines.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from diagrammer.netlist.model import System
from diagrammer.netlist.read import read
from diagrammer.netlist.style import circuit, flow_of, node
from diagrammer.text.compose import Remark, last_line, remarks, scalar, scalars
from diagrammer.text.parse import parse
from diagrammer.text.source import Source
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

WIDTH = 120  # characters of a circuit in one line
LONGEST = 20  # characters of a name that others are aligned to
ENTRY = 8  # columns of an entry's name in a circuit: "return: "


class Changed(Exception):
    """The tidy text would not mean the same: a fault of this program."""


def tidy(source: Source, folder: Path | None = None) -> str:
    """The tidy text of a netlist that reads without a problem.

    Raises Changed; ValueError where the netlist has problems.
    """
    before, problems = read(source, folder=folder)
    if before is None:
        raise ValueError(f"{len(problems)} problems")
    tree, _ = parse(source)
    text = _Writer(source, tree).write()
    after, _ = read(text, source.file, folder)
    if after is None or meaning(after) != meaning(before):
        raise Changed(source.file)
    return text


def meaning(system: System) -> tuple:
    """All that a netlist says, without the places where it says so."""
    nodes = [(name, node.kind.name, dict(node.values), {rule: why for rule, (why, _) in node.accept.items()})
             for name, node in system.nodes.items()]
    wires = [replace(one, place=system.place, size_place=None) for one in system.conductors]
    joints = [replace(one, place=system.place) for one in system.joints]
    circuits = [(one.name, one.note, one.named, {rule: why for rule, (why, _) in one.accept.items()},
                 [(leg.role, leg.links, [(stop.node, stop.enter, stop.leave, stop.stud) for stop in leg.stops])
                  for leg in one.legs])
                for one in system.circuits]
    return (system.title, system.practice, system.site, dict(system.sheet), nodes,
            [replace(one, place=None) for one in wires],
            [replace(one, place=None) for one in joints], system.insides, dict(system.runs), circuits,
            system.interlocks, dict(system.states))


class _Writer:
    def __init__(self, source: Source, tree: Mapping) -> None:
        self.source, self.tree = source, tree
        self.remarks: dict[int, Remark] = remarks(source, tree)
        self.lines: list[str] = []
        self.row = 1  # the next line of the source to come

    def write(self) -> str:
        if self.tree.flow and self.inside(self.tree.place.line, self.tree.place.end_line):
            self.between(self.tree.place.line, 0)
            self.verbatim(self.tree.place.line, self.tree.place.end_line, 0, 0)
        else:
            for key, value in self.tree:
                self.section(key, value)
        self.between(len(self.source.lines) + 1, 0)
        while self.lines and not self.lines[-1]:
            self.lines.pop()
        return "\n".join([*self.lines, ""])

    def section(self, key: Scalar, value: Tree) -> None:
        start = len(self.lines)
        self.between(key.place.line, 0)
        if key.text in ("nodes", "circuits"):
            self.apart(start)
        if key.text not in ("nodes",
                            "circuits") or not scalars_of(value) or (value.flow
                                                                     and self.inside(key.place.line, last_line(value))):
            self.entry(key, value, 0, f"{key.text}: ", flow_of(key.text, value))
            return
        if value.flow:
            self.lines.append(f"{key.text}:")
        else:
            self.put(key.place.line, key.place.line, [f"{key.text}:"])
        if isinstance(value, Mapping):
            self.nodes(value)
        else:
            self.circuits(value)
        self.row = max(self.row, last_line(value) + 1)

    def nodes(self, tree: Mapping) -> None:
        width = max((len(key.text) for key, _ in tree if len(key.text) <= LONGEST), default=0) + 2
        for key, value in tree:
            self.between(key.place.line, 2)
            self.entry(key, value, 2, f"{scalar(key.text)}:".ljust(width - 1) + " ", node(value))

    def circuits(self, tree: Sequence) -> None:
        for item in tree.items:
            line = item.place.line
            self.between(line, 2)
            text = circuit(item)
            if not self.inside(line, last_line(item)) and text and item.flow and len(text) + 4 <= WIDTH:
                self.put(line, last_line(item), [f"  - {text}"])
            else:
                self.block(item)

    def block(self, item: Mapping) -> None:
        """A circuit with an entry a line."""
        spread = len({key.place.line for key, _ in item}) == len(item.entries)
        if item.flow and self.inside(item.place.line, last_line(item)):
            self.verbatim(item.place.line, last_line(item), item.place.column - 1, 4)
            return
        for number, (key, value) in enumerate(item):
            head = f"{'    ' if number else '  - '}{f'{key.text}:'.ljust(ENTRY - 1)} "
            if spread and not item.flow:
                self.between(key.place.line, 4)
                self.entry(key, value, 4, head.strip(" "), flow_of(key.text, value), head)
            else:
                self.lines.append(head + (flow_of(key.text, value) or ""))
        if item.flow or not spread:
            self.trail(last_line(item))

    def entry(self, key: Scalar, value: Tree, indent: int, head: str, text: str | None,
              whole: str | None = None) -> None:
        """`key: value` in one line, or as it stands where that can't be."""
        first, last = key.place.line, last_line(value)
        if text is None or self.inside(first, last):
            self.verbatim(first, last, key.place.column - 1, indent)
        else:
            self.put(first, last, [(whole or " " * indent + head) + text])

    def between(self, line: int, indent: int) -> None:
        """Blank lines, never two, and remarks that stand alone, down to a line of the source."""
        for number in range(self.row, line):
            remark = self.remarks.get(number)
            if remark:
                deeper = 2 if not indent and remark.column > 1 else 0  # it stands at the end of a section
                self.lines.append(" " * (indent + deeper) + remark.text)
            elif not self.at(number).strip() and self.lines and self.lines[-1]:
                self.lines.append("")
        self.row = max(self.row, line)

    def at(self, number: int) -> str:
        return self.source.lines[number - 1] if number <= len(self.source.lines) else ""

    def apart(self, start: int) -> None:
        """A blank line above a section and the remarks on it."""
        if start and not any(line == "" for line in self.lines[start - 1 :]):
            self.lines.insert(start, "")

    def inside(self, first: int, last: int) -> bool:
        """Whether a remark stands within these lines, other than behind the last."""
        return any(number in self.remarks for number in range(first, last))

    def put(self, first: int, last: int, texts: list[str]) -> None:
        self.lines += texts
        self.trail(last)

    def trail(self, line: int) -> None:
        """The remark behind an entry, in its old column where there is room."""
        remark = self.remarks.get(line)
        if remark and not remark.alone and self.row <= line:
            self.lines[-1] = f"{self.lines[-1].ljust(remark.column - 3)}  {remark.text}"
        self.row = max(self.row, line + 1)

    def verbatim(self, first: int, last: int, was: int, indent: int) -> None:
        for number in range(first, last + 1):
            line = self.source.lines[number - 1].rstrip()
            spaces = len(line) - len(line.lstrip())
            self.lines.append(" " * max(0, spaces + indent - was) + line.lstrip() if line else "")
        self.row = max(self.row, last + 1)


def scalars_of(tree: Tree) -> bool:
    return any(True for _ in scalars(tree))
