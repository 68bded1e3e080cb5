"""A rule of a danger says what can happen to a person or the vehicle; a rule of mains defers to code and licence.

Common practice of warnings: a reader who knows only the rule's name learns from `Why:` what is at stake.
"""

from __future__ import annotations

import re

import pytest

from diagrammer.rules import RULES

HARM = re.compile(r"\b(burn|fire\b|alight|shock|kill|explo|burst|destroy|live\b|melt)", re.I)  # a short is a cause
DEFERS = re.compile(r"\b(local codes?|licensed)\b", re.I)
DANGERS = [name for name in RULES if RULES[name].severity == "danger"]
MAINS = [name for name in RULES if RULES[name].family == "ac"]


@pytest.mark.parametrize("name", DANGERS)
def test_a_danger_says_what_it_does_to_people_or_the_vehicle(name):
    assert HARM.search(RULES[name].why), RULES[name].why


@pytest.mark.parametrize("name", MAINS)
def test_mains_defer_to_the_local_code_or_a_licensed_person(name):
    assert DEFERS.search(f"{RULES[name].why} {RULES[name].fix}"), RULES[name].fix


def test_there_are_dangers_and_rules_of_mains():
    assert len(DANGERS) >= 25 and len(MAINS) >= 8
