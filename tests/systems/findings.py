"""A system's findings as marks: "rule@circuit:hop" or "rule@node"."""

from __future__ import annotations

from diagrammer.netlist.read import read
from diagrammer.rules.run import check


def marks(text: str) -> tuple[list[str], list[str]]:
    """All that is found in a netlist that must be readable, and of that what is no mere notice."""
    system, problems = read(text, "generated.yaml")
    assert system is not None, f"{problems}\n{text}"
    found = [(one.severity, f"{one.rule}@{(one.conductors or one.nodes or ('',))[0]}") for one in check(system)]
    return [mark for _, mark in found], [mark for severity, mark in found if severity != "notice"]
