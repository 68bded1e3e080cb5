"""What a rule's module must have."""

from __future__ import annotations

from types import ModuleType

import pytest

from diagrammer.rules.rule import Rule, load

DOC = """A lamp
is dark.

Why: nobody
sees.

Fix: light it.
"""


def module(doc: str | None = DOC, **parts) -> ModuleType:
    made = ModuleType("diagrammer.rules.whole.dark_lamp", doc)
    given = {"SEVERITY": "notice", "SOURCES": ["common practice"], "GOOD": "\nnodes: {}\n", "BAD": "\n\nnodes: {a: 1}\n",
             "check": lambda survey: ()}
    for name, value in {**given, **parts}.items():
        if value is not None:
            setattr(made, name, value)
    return made


def test_a_module_becomes_a_rule():
    made = module()
    assert load(made) == Rule(
        "dark-lamp", "whole", "notice", "A lamp is dark.", "nobody sees.", "light it.", ("common practice",),
        "nodes: {}\n", "nodes: {a: 1}\n", made.check, False, ())
    more = load(module(AFTER=True, SYMPTOMS=["voltage-drop"]))
    assert more.after is True and more.symptoms == ("voltage-drop",)


@pytest.mark.parametrize(("doc", "parts", "said"), [
    (None, {}, "dark-lamp: the docstring"), ("A lamp is dark.", {}, "dark-lamp: the docstring"),
    (DOC, {"SEVERITY": "grave"}, "SEVERITY is missing or unknown"), (DOC, {"SOURCES": None}, "SOURCES is missing"),
    (DOC, {"GOOD": None, "BAD": None}, "GOOD, BAD is missing"), (DOC, {"check": None}, "check is missing"),
    (DOC, {"SEVERITY": None}, "SEVERITY is missing"),
])
def test_what_is_missing_is_named(doc, parts, said):
    with pytest.raises(TypeError, match=said):
        load(module(doc, **parts))
