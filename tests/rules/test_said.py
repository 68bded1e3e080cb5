"""What every rule's own bad netlist makes `check` say, on the pages of said/: all findings, under each practice.

The findings of the rule itself stand in full; the others, and what the other practices change, by a line each.
`pytest tests/rules/test_said.py --rewrite-messages` writes the pages anew; read the difference before it is kept.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest

from diagrammer.netlist.read import read
from diagrammer.rules import RULES
from diagrammer.rules.run import check

HERE = Path(__file__).parent / "said"
PRACTICES = ("abyc", "iso", "nec")


def under(practice: str, text: str) -> str:
    """The netlist under another practice."""
    return f"practice: {practice}\n" + re.sub(r"(?m)^practice:.*\n", "", text)


def line(one) -> str:
    at = f"{one.at.line}:{one.at.column}-{one.at.end_line}:{one.at.end_column}"
    accepted = f" (accepted: {one.accepted})" if one.accepted else ""
    marks = f"nodes {', '.join(one.nodes) or '-'}; conductors {', '.join(one.conductors) or '-'}"
    return f"{at} {one.severity} {one.rule}{accepted} [{marks}]"


def full(one) -> str:
    """With the message, the path and a fix of its own."""
    rule = RULES[one.rule]
    parts = [line(one), one.message]
    parts += [f"subjects {', '.join(one.subjects)}"]
    parts += [f"path {' > '.join(one.path)}"] if one.path else []
    parts += [f"with {said}" for said in one.symptoms]
    parts += [f"fix {one.fix}"] if one.fix != rule.fix else []
    parts += [f"why {one.reason}"] if one.reason != rule.why else []
    return "\n    ".join(parts)


def said(name: str) -> str:
    """One section of a page."""
    lines, before = [], None
    for practice in PRACTICES:
        system, problems = read(under(practice, RULES[name].bad), f"{name}.yaml")
        if system is None:
            lines.append(f"  {practice} cannot read it: {problems[0].message}")
            continue
        found = [full(one) if one.rule == name else line(one) for one in check(system)]
        same = found == before
        lines += [f"  {practice} says the same"] if same else [f"  {practice}", *("  " + one for one in found)]
        before = found
    return "\n".join((name, *lines)) + "\n"


@cache
def page(family: str) -> dict[str, str]:
    """The sections of a page by their rules."""
    sections = (HERE / f"{family}.txt").read_text(encoding="utf-8").split("\n\n")
    return {section.split("\n", 1)[0]: section.rstrip("\n") + "\n" for section in sections}


@pytest.mark.parametrize("name", RULES)
def test_what_a_bad_netlist_says(name, request):
    family = RULES[name].family
    if request.config.getoption("--rewrite-messages"):
        names = [other for other, rule in RULES.items() if rule.family == family]
        if name == names[0]:
            (HERE / f"{family}.txt").write_text("\n".join(map(said, names)), encoding="utf-8")
        page.cache_clear()
    assert page(family)[name] == said(name)
