"""What is left out of a netlist means the same as the usual value written out."""

from __future__ import annotations

import re

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import check

WRITTEN = {
    "house": (r"kind: (?:bank|battery)", "duty: house"), "one in series": (r"kind: pv", "series: 1"),
    "one in parallel": (r"kind: pv", "parallel: 1"), "one load": (r"kind: (?:ac load|load)", "count: 1"),
}


def said(text: str) -> list[tuple]:
    system, problems = read(text, "case.yaml")
    assert system is not None, problems
    return [(one.rule, one.severity, one.message, one.nodes, one.conductors, one.fix) for one in check(system)]


@pytest.mark.parametrize("usual", WRITTEN)
def test_the_usual_value_written_out_once_changes_nothing(usual):
    kind, field = WRITTEN[usual]
    tried = 0
    for name, rule in RULES.items():
        key = field.partition(":")[0]
        written = re.sub(rf"({kind})(?=[,}}])(?![^\n]*\b{key}:)", rf"\1, {field}", rule.bad, count=1)
        if written != rule.bad:
            tried += 1
            assert said(written) == said(rule.bad), name
    assert tried > 5
