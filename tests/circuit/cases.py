"""Runs a boundary case: a netlist and the marks of all that may be found in it.

A case is written short: `nodes` a line each ("lamp: load, voltage: 12 V, power: 10 W", the kind
first), `circuits` a line each ("lamp: feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 2 m", the
name first). Marks are "rule@circuit:hop", a conductor's cable, or "rule@node".
"""

from __future__ import annotations

from diagrammer.circuit.survey import Survey
from diagrammer.netlist.model import System
from diagrammer.netlist.read import read


def netlist(nodes: str, circuits: str, practice: str = "abyc", head: str = "") -> str:
    """The text of a netlist from its short lines."""
    lines = ["title: Boundary case", f"practice: {practice}", *head.strip().splitlines(), "nodes:"]
    for name, rest in _lines(nodes):
        lines.append(f"  {name}: {{kind: {rest}}}")
    lines.append("circuits:")
    for name, rest in _lines(circuits):
        lines.append(f"  - {{name: {name}, {rest}}}")
    return "\n".join(lines) + "\n"


def _lines(text: str) -> list[tuple[str, str]]:
    pairs = [line.strip().partition(": ") for line in text.strip().splitlines() if line.strip()]
    return [(name, rest.strip()) for name, _, rest in pairs]


def system(text: str) -> System:
    """The system of a netlist that must be readable."""
    found, problems = read(text, "case.yaml")
    assert found is not None, "\n".join(f"{problem.at} {problem.message}" for problem in problems) + "\n" + text
    return found


def marks(text: str) -> list[str]:
    """Every finding of the graph's checks, sorted; what was found twice stands twice."""
    return sorted(fact.mark for fact in Survey(system(text)).facts)


def expect(text: str, expected: str) -> None:
    """Exactly these marks are found, parted by spaces."""
    found = " ".join(marks(text))
    assert found == " ".join(sorted(expected.split())), f"found: {found or 'nothing'}\n{text}"
