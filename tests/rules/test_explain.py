"""The page of a rule."""

from __future__ import annotations

from textwrap import dedent

import pytest

from diagrammer.rules import RULES
from diagrammer.rules.explain import CODES, explain, headline

RULE = RULES["voltage-drop"]


def parts() -> dict[str, str]:
    """What stands under each heading, "" for what comes before the first."""
    found, heading = {"": ""}, ""
    for line in explain(RULE.name).splitlines():
        if line in ("Why", "Usual fix", "A netlist with the fault", "A netlist without it", "Source"):
            heading, found[line] = line, ""
        elif line and not line.startswith(" ") and heading:
            heading = ""
            found[""] += f"\n{line}"
        else:
            found[heading] += f"\n{line}"
    return found


def running(text: str) -> str:
    return " ".join(text.split())


def test_the_page_holds_what_the_rule_states_each_under_its_heading():
    found = parts()
    assert found[""].split() == f"{RULE.name} ({RULE.severity}) {RULE.what} {CODES}".split()
    for heading, text in (("Why", RULE.why), ("Usual fix", RULE.fix)):
        assert running(found[heading]) == running(text[0].upper() + text[1:])
    assert dedent(found["A netlist with the fault"]).strip("\n") == RULE.bad.rstrip()
    assert dedent(found["A netlist without it"]).strip("\n") == RULE.good.rstrip()
    assert running(found["Source"]).lower() == running(" ".join(RULE.sources)).lower()


@pytest.mark.parametrize("name", RULES)
def test_running_text_fits_the_page_and_stands_indented(name):
    """Netlists keep their own width."""
    netlists = {line.strip() for line in (RULES[name].bad + RULES[name].good).splitlines()}
    lines = [line for line in explain(name).splitlines() if line.strip() not in netlists]
    assert max(map(len, lines)) <= 88
    after = explain(name).split("\n\nWhy\n\n")[1].partition("\n\n")[0].splitlines()
    assert all(line.startswith("    ") and line[4] != " " for line in after)
    assert not after[0][4].islower()


def test_a_headline_is_the_fault_in_a_sentence():
    assert headline(RULE.name) == RULE.what
    for ask in (headline, explain):
        with pytest.raises(KeyError):
            ask("no-such-rule")
