"""Every end into which too much can flow, and the positions on which it depends."""

from __future__ import annotations

import pytest

from diagrammer.circuit.protection import Overdrawn
from diagrammer.circuit.survey import Survey
from tests.circuit.cases import system
from tests.circuit.test_protection_cases import selected

SECOND = "  turn: {kind: selector, rating: 20 A}\n  pump: {kind: load, voltage: 12 V, power: 24 W}\n"
PUMP = "  - {name: pump, feed: feed-bar/fuse 10 A -> turn, return: none, wire: 14 AWG 1 m}\n" \
       "  - {name: on, feed: turn.1 -> pump, return: none, wire: 14 AWG 1 m}\n"


@pytest.mark.parametrize(("main", "positions"), [
    ("150 A", {(("sel", "both"),)}),  # 4 AWG may have 175 A, not twice 150 A
    ("200 A", {()}),  # too large in each in which current comes
])
def test_only_the_positions_that_matter_are_told(main, positions):
    """Of a selector behind the line it does not matter how it stands."""
    text = selected("").replace("150 A", main).replace("circuits:\n", SECOND + "circuits:\n" + PUMP)
    (fact,) = [one for one in Survey(system(text)).protection if isinstance(one, Overdrawn)]
    assert {end.positions for end in fact.ends} == positions
