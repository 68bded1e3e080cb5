"""Which positions of selectors, transfers and isolators are looked at."""

from __future__ import annotations

import pytest

from tests.circuit.cases import expect
from tests.circuit.test_protection_cases import selected

BOTH = "protection-too-large@common:f0"  # with both banks at once 300 A reach a conductor for 240 A at most


@pytest.mark.parametrize(("states", "found"), [
    ("", BOTH),  # without states every position is possible
    ("states: {one: {sel: 1}, two: {sel: 2}}", ""),
    ("states: {one: {sel: 1}, together: {sel: both}}", BOTH),  # one state that allows it is enough
    ("states: {one: {sel: 1}, resting: {lamp-1: off}}", BOTH),  # a state that does not say how it stands allows all
])
def test_states_tell_which_positions_there_are(states, found):
    expect(selected("") + states + "\n", found)
