"""130 A out of one bank, out of several, out of what states no limit; and its protection circuit."""

from __future__ import annotations

import pytest

from diagrammer.rules import RULES
from tests.rules.asked import found
from tests.rules.variants import bad, edited, severities

RULE = "bank-overdrawn"
LIMIT = "max discharge: 100 A"


@pytest.mark.parametrize("limit, expected", [("129.9 A", ["danger"]), ("130 A", []), ("130.1 A", [])])
def test_its_stated_limit(limit, expected):
    assert severities(bad(RULE, (LIMIT, f"max discharge: {limit}"))) == expected


def test_loads_that_are_off_in_every_named_state_do_not_count():
    text = RULES[RULE].bad + "states: {heating: {winch: off}, hauling: {heater: off}}\n"
    assert found(RULE, text) == ()


def test_of_momentary_loads_the_largest_counts():
    assert bad(RULE, ("current: 60 A, duty: heat", "current: 60 A, hours: 0.1"),
               ("current: 70 A", "current: 70 A, hours: 0.1")) == ()


@pytest.mark.parametrize("chemistry, capacity, expected", [
    ("lifepo4", "129 Ah", ["warning"]), ("lifepo4", "130 Ah", []),  # 1 C, table of batteries
    ("agm", "430 Ah", ["notice"]), ("agm", "434 Ah", []),  # 0.3 C
])
def test_what_is_usual_where_no_limit_is_stated(chemistry, capacity, expected):
    pairs = (f", {LIMIT}", ""), ("lifepo4", chemistry), ("12.8 V", "12 V"), ("200 Ah", capacity), ("4 kA", "40 kA")
    assert severities(bad(RULE, *pairs)) == expected


def test_a_starter_battery_states_its_limit_or_has_none():
    assert bad(RULE, (f", {LIMIT}", ", duty: starter"), ("200 Ah", "50 Ah")) == ()
    assert severities(bad(RULE, (LIMIT, f"{LIMIT}, duty: starter"))) == ["danger"]


TWO = """
nodes:
  left: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max discharge: LIMIT,
         short circuit: 4 kA}
  right: {kind: battery, chemistry: lifepo4, voltage: 12.8 V, capacity: 100 Ah, max discharge: LIMIT,
          short circuit: 4 kA}
  panel: {kind: panel, rating: 150 A}
  winch: {kind: load, voltage: 12 V, current: 130 A}
circuits:
  - {feed: left -> right, wire: 2/0 AWG 0.3 m}
  - {feed: left/fuse 150 A -> panel, return: right -> panel, wire: 2/0 AWG 1 m}
  - {feed: panel/fuse 150 A -> winch, wire: 2/0 AWG 1 m}
"""


@pytest.mark.parametrize("limit, expected", [("64 A", ["danger"]), ("65 A", [])])
def test_batteries_in_parallel_share(limit, expected):
    assert severities(found(RULE, TWO.replace("LIMIT", limit))) == expected


def test_in_series_one_current_passes_both():
    text = edited(TWO, ("{feed: left -> right, wire", "{series: right -> left, wire"), ("LIMIT", "100 A"),
                  ("voltage: 12 V", "voltage: 24 V"))
    assert severities(found(RULE, text)) == ["danger"]


@pytest.mark.parametrize("rating, expected", [("129 A", 1), ("130 A", 0)])
def test_the_protection_circuit_by_its_own_rating(rating, expected):
    findings = bad(
        RULE, (LIMIT, "max discharge: 200 A"),
        ("circuits:", f"  watch: {{kind: bms, rating: {rating}}}\ncircuits:\n"
                      f"  - {{return: bank -> watch -> panel, wire: [2/0 AWG 0.2 m, 0.2 m]}}"),
        ("200 A -> panel, wire", "200 A -> panel, return: none, wire"),
    )
    assert [one.nodes for one in findings] == [("watch",)] * expected
