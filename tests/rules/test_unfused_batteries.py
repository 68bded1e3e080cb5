"""Batteries in parallel, just below and above what one device may protect."""

from __future__ import annotations

import pytest

from tests.rules.asked import found

RULE = "unfused-batteries"


def pair(capacity: str, second: str = "") -> str:
    return f"""
nodes:
  left:  {{kind: battery, chemistry: agm, voltage: 12 V, capacity: {capacity}, short circuit: 3 kA}}
  right: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: {capacity}, short circuit: 3 kA{second}}}
  panel: {{kind: panel, rating: 200 A}}
  lamp:  {{kind: load, voltage: 12 V, power: 20 W}}
circuits:
  - {{feed: left -> right, return: left -> right, wire: {{feed: 2/0 AWG 0.3 m, return: 2/0 AWG 0.3 m}}}}
  - feed:   left/fuse class-t 200 A -> panel
    return: right -> panel
    wire:   {{feed: 2/0 AWG 0.4 m, return: 2/0 AWG 0.4 m}}
  - {{feed: panel/fuse class-t 10 A -> lamp, wire: 14 AWG 3 m}}
"""


@pytest.mark.parametrize(("capacity", "count"), [("249 Ah", 0), ("250 Ah", 0), ("251 Ah", 1)])
def test_500_ampere_hours_together(capacity, count):
    """ABYC E-11 11.10.1.4.1 (July 2025)."""
    assert len(found(RULE, pair(capacity))) == count


def test_with_a_fuse_between_they_may_be_larger():
    text = pair("400 Ah").replace("feed: left -> right", "feed: left/fuse class-t 200 A -> fuse class-t 200 A/right")
    assert found(RULE, text) == ()


def test_a_starter_battery_is_no_part_of_the_bank():
    assert found(RULE, pair("400 Ah", second=", duty: starter")) == ()


def test_in_series_their_capacities_do_not_add():
    link = "{feed: left -> right, return: left -> right, wire: {feed: 2/0 AWG 0.3 m, return: 2/0 AWG 0.3 m}}"
    text = pair("400 Ah").replace(link, "{series: right -> left, wire: 2/0 AWG 0.3 m}")
    text = text.replace("lamp:  {kind: load, voltage: 12 V", "lamp:  {kind: load, voltage: 24 V")
    assert "series" in text and found(RULE, text) == ()


@pytest.mark.parametrize(("between", "count"), [
    ("switch battery 300 A", 1),  # closed by hand, it opens nothing by itself
    ("switch battery 300 A open", 0),  # and this one stands open
    ("fuse class-t 200 A", 0),
])
def test_what_joins_them_for_good(between, count):
    text = pair("400 Ah").replace("feed: left -> right", f"feed: left/{between} -> right")
    assert len(found(RULE, text)) == count
