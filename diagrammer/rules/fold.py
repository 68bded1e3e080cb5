"""One cause with several symptoms is one finding: what follows from it is told under it.

A rule names in SYMPTOMS the rules whose findings may follow from its own. They are folded where they are about the same
circuit or node; the cause then is as grave as the gravest of them. What is accepted neither folds nor is folded.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from diagrammer.circuit.survey import Survey
from diagrammer.rules.rule import Rule
from diagrammer.text.finding import SEVERITIES, Finding


def fold(findings: Sequence[Finding], rules: Mapping[str, Rule], survey: Survey) -> tuple[Finding, ...]:
    """The findings that no other one explains, each with those that it does."""
    under: dict[int, int] = {}  # the number of a symptom: that of its cause
    for number, one in enumerate(findings):
        named = rules[one.rule].symptoms
        for other, symptom in enumerate(findings) if named and not one.accepted else ():
            if symptom.rule in named and not symptom.accepted and other not in (*under, _root(under, number)):
                if _together(survey, one, symptom):
                    under[other] = number
    return tuple(_with(one, [findings[other] for other in sorted(under) if _root(under, other) == number])
                 for number, one in enumerate(findings) if number not in under)


def _root(under: Mapping[int, int], number: int) -> int:
    """What is explained by a symptom is explained by its cause."""
    while number in under:
        number = under[number]
    return number


def _together(survey: Survey, cause: Finding, symptom: Finding) -> bool:
    lines = _lines(survey, symptom)
    if lines and lines <= _lines(survey, cause):
        return True
    return not symptom.conductors and any(node in cause.nodes for node in symptom.nodes[:1])


def _lines(survey: Survey, one: Finding) -> set[str]:
    """The circuit that a finding blames, or those on which the node stands that it blames."""
    if one.conductors:
        return {survey.start.cables[one.conductors[0]].circuit}
    return {line for node in one.nodes[:1] for line in survey.met_in.get(node, ())}


def _with(cause: Finding, symptoms: Iterable[Finding]) -> Finding:
    told = list(symptoms)
    if not told:
        return cause
    gravest = min((cause, *told), key=lambda one: SEVERITIES.index(one.severity)).severity
    return replace(cause, severity=gravest, symptoms=tuple(f"{one.rule}: {one.message}" for one in told))
