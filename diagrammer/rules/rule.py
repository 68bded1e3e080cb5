"""What a rule is: a module with a docstring, its constants and `check`.

    \"\"\"The fault, in one sentence.

    Why: what comes of it.

    Fix: what is usually done.
    \"\"\"
    SEVERITY    danger, warning or notice
    SOURCES     standard and clause of each, "common practice" where there is none
    GOOD, BAD   netlists; in BAD the finding is marked in a comment under its place:
                    # ^^^^ rule-name: the message
    check(survey) -> Iterator[Finding]
    SYMPTOMS    names of the rules whose findings at the same place follow from this one's: folded under it (fold.py)
    AFTER       True where it looks at what the other rules found: check(survey, findings)

A module whose name begins with an underscore is no rule, but what several share.
"""

from __future__ import annotations

import inspect
import re
import sys
from collections.abc import Callable, Iterable
from functools import cache
from types import ModuleType

from diagrammer.circuit.survey import Survey
from diagrammer.circuit.view import Fact
from diagrammer.frozen import frozen
from diagrammer.text.finding import SEVERITIES, Finding
from diagrammer.text.place import Place

_DOC = re.compile(r"(?P<what>.+?)\n\nWhy: (?P<why>.+?)\n\nFix: (?P<fix>.+)", re.S)


@frozen
class Rule:
    """A rule as its module states it. `what`, `why` and `fix` are running text."""

    name: str
    family: str
    severity: str
    what: str
    why: str
    fix: str
    sources: tuple[str, ...]
    good: str
    bad: str
    check: Callable[..., Iterable[Finding]]
    after: bool = False
    symptoms: tuple[str, ...] = ()


@cache
def load(module: ModuleType) -> Rule:
    """The rule that a module holds. Raises TypeError where something is missing."""
    name = module.__name__.rpartition(".")[2].replace("_", "-")
    text = _DOC.fullmatch(inspect.cleandoc(module.__doc__ or ""))
    if not text:
        raise TypeError(f"rule {name}: the docstring is a sentence, `Why:` and `Fix:`, parted by empty lines")
    missing = [part for part in ("SEVERITY", "SOURCES", "GOOD", "BAD", "check") if not hasattr(module, part)]
    if missing or module.SEVERITY not in SEVERITIES:
        raise TypeError(f"rule {name}: {', '.join(missing) or 'SEVERITY'} is missing or unknown")
    what, why, fix = (" ".join(text[part].split()) for part in ("what", "why", "fix"))
    return Rule(
        name, module.__name__.split(".")[-2], module.SEVERITY, what, why, fix, tuple(module.SOURCES),
        module.GOOD.lstrip("\n"), module.BAD.lstrip("\n"), module.check, getattr(module, "AFTER", False),
        tuple(getattr(module, "SYMPTOMS", ())),
    )


def finding(module: str, survey: Survey, fact: Fact, message: str, *, fix: str = "", at: Place | None = None,
            severity: str = "", nodes: Iterable[str] = (), conductors: Iterable[str] = ()) -> Finding:
    """What the rule of `module` (its __name__) says of a fact; place, nodes and conductors are the
    fact's own unless given."""
    rule = load(sys.modules[module])
    nodes, conductors = tuple(nodes) or fact.nodes, tuple(conductors) or fact.cables
    return Finding(
        rule=rule.name, severity=severity or rule.severity, message=message, reason=rule.why, fix=fix or rule.fix,
        source="; ".join(rule.sources), at=at or place(survey, fact), subjects=subjects(survey, nodes, conductors),
        path=fact.path, nodes=nodes, conductors=conductors,
    )


def place(survey: Survey, fact: Fact) -> Place:
    """Where a fact stands in the text: the blamed conductor, joint or node."""
    if fact.cables:
        return survey.start.cables[fact.cables[0]].place
    if fact.edge:
        return survey.start.edges[fact.edge]["value"].place
    return survey.system.nodes[fact.nodes[0]].place


def subjects(survey: Survey, nodes: Iterable[str], conductors: Iterable[str]) -> tuple[str, ...]:
    """The names a reader knows: the nodes, then the circuits of the conductors."""
    return tuple(dict.fromkeys((*nodes, *(survey.start.cables[cable].circuit for cable in conductors))))
