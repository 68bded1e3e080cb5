"""How the same netlist is judged under each practice."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from diagrammer.frozen import frozen
from diagrammer.netlist.read import read
from diagrammer.netlist.sections import PRACTICES
from diagrammer.rules import rules
from diagrammer.rules.run import check

_PRACTICE = re.compile(r"^practice\s*:.*$", re.M)


@frozen
class Verdict:
    """How often a rule speaks of a netlist under each of PRACTICES, accepted findings left out."""

    netlist: str
    rule: str
    counts: tuple[int, ...]


def under(practice: str, text: str) -> str:
    """The netlist `text` with that practice, its lines where they were if it names one."""
    changed, found = _PRACTICE.subn(f"practice: {practice}", text)
    return changed if found else f"practice: {practice}\n{text}"


def differing(name: str, text: str, folder: Path | None = None) -> Iterator[Verdict]:
    """The rules that do not speak equally often of a netlist under all practices.

    Raises
    ------
    ValueError
        It cannot be read under one of them.
    """
    counts = []
    for practice in PRACTICES:
        system, problems = read(under(practice, text), folder=folder)
        if system is None:
            raise ValueError(f"{name}: cannot be read under {practice}: {problems[0].message}")
        counts.append(Counter(one.rule for one in check(system) if not one.accepted))
    for rule in rules():
        each = tuple(count[rule] for count in counts)
        if len(set(each)) > 1:
            yield Verdict(name, rule, each)
