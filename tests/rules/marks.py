"""The marks in a rule's bad netlist: comments under the place of a finding.

    - {feed: bar -> radio}
    #        ^^^^^^^^^^^^ wrong-domain: the start of the message ...
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_MARK = re.compile(r"\s*#\s*(?P<carets>\^+) (?P<rule>[a-z-]+): (?P<message>.+)")


@dataclass(frozen=True)
class Mark:
    """line and columns count from 1; a message that ends in "..." is the start of one."""

    rule: str
    line: int
    column: int
    end_column: int
    message: str

    def fits(self, finding) -> bool:
        at = finding.at
        start = self.message.removesuffix("...").rstrip()
        says = finding.message.startswith(start) if start != self.message else finding.message == start
        return says and (finding.rule, at.line, at.column, at.end_column) == (
            self.rule, self.line, self.column, self.end_column)


def marks(text: str) -> list[Mark]:
    """Those of a netlist; several under one line mean the same line."""
    found, line = [], 0
    for number, content in enumerate(text.splitlines(), 1):
        mark = _MARK.fullmatch(content)
        if not mark:
            line = number
            continue
        column = mark.start("carets") + 1
        found.append(Mark(mark["rule"], line, column, column + len(mark["carets"]), mark["message"]))
    return found
