"""A system's findings as marks: "rule@circuit:hop" or "rule@node"."""

from __future__ import annotations

from diagrammer.netlist.read import read
from diagrammer.rules.run import check


def marks(text: str, notices: bool = False) -> list[str]:
    """What is found in a netlist that must be readable, notices left out unless asked for."""
    system, problems = read(text, "generated.yaml")
    assert system is not None, f"{problems}\n{text}"
    return [
        f"{one.rule}@{(one.conductors or one.nodes or ('',))[0]}"
        for one in check(system)
        if notices or one.severity != "notice"
    ]
