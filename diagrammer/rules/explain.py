"""The page that `diagrammer explain` prints of a rule."""

from __future__ import annotations

from textwrap import fill, indent

from diagrammer.rules import rules

WIDTH = 88  # columns of a page
CODES = "Local codes and the judgement of a licensed electrician come before this page."


def headline(name: str) -> str:
    """The fault in a sentence. Raises KeyError where there is no such rule."""
    return rules()[name].what


def explain(name: str) -> str:
    """What a rule looks for, why, what is usually done, a bad and a good netlist, and where it is
    from. Raises KeyError where there is no such rule."""
    rule = rules()[name]
    parts = (
        f"{rule.name} ({rule.severity})", fill(rule.what, WIDTH),
        "Why", _text(rule.why), "Usual fix", _text(rule.fix),
        "A netlist with the fault", _netlist(rule.bad), "A netlist without it", _netlist(rule.good),
        "Source", "\n".join(_text(source) for source in rule.sources),
    )
    return "\n\n".join((*parts, fill(CODES, WIDTH)))


def _text(text: str) -> str:
    return fill(text[:1].upper() + text[1:], WIDTH, initial_indent="    ", subsequent_indent="    ")


def _netlist(text: str) -> str:
    return indent(text.rstrip(), "    ")
