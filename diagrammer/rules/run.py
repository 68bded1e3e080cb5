"""Runs every rule over a system."""

from __future__ import annotations

from collections.abc import Iterable

from diagrammer.circuit import survey as surveys
from diagrammer.netlist.model import System
from diagrammer.rules import rules
from diagrammer.rules.acceptance import accept, acceptances
from diagrammer.rules.fold import fold
from diagrammer.text.finding import Finding


def check(system: System) -> tuple[Finding, ...]:
    """Every finding in the order of the file, accepted ones marked with the reason, symptoms under their causes."""
    survey = surveys.survey(system)
    first = [rule for rule in rules().values() if not rule.after]
    last = [rule for rule in rules().values() if rule.after]
    found = [one for rule in first for one in rule.check(survey)]
    found += [one for rule in last for one in rule.check(survey, tuple(found))]
    accepted = tuple(acceptances(system))
    return fold(in_order(accept(one, accepted) for one in found), rules(), survey)


def in_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """By place; those of one place by rule."""
    return tuple(sorted(findings, key=lambda one: (one.at, one.rule, one.message)))
