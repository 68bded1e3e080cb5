"""A rule's own netlists with parts of them replaced."""

from __future__ import annotations

from collections.abc import Iterable

from diagrammer.rules import RULES
from diagrammer.text.finding import Finding
from tests.rules.asked import found


def edited(text: str, *pairs: tuple[str, str]) -> str:
    """The text with each first part replaced by the second; the first has to be in it."""
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def good(rule: str, *pairs: tuple[str, str]) -> tuple[Finding, ...]:
    """What a rule finds in its own good netlist, changed."""
    return found(rule, edited(RULES[rule].good, *pairs))


def bad(rule: str, *pairs: tuple[str, str]) -> tuple[Finding, ...]:
    """What a rule finds in its own bad netlist, changed."""
    return found(rule, edited(RULES[rule].bad, *pairs))


def severities(findings: Iterable[Finding]) -> list[str]:
    return [one.severity for one in findings]
