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
    ("plug 300 A", 1),  # drawn by hand
    ("relay", 0),  # opens by itself
    ("fuse class-t 200 A", 0),
])
def test_what_joins_them_for_good(between, count):
    named = "{kind: relay, rating: 300 A, coil: 12 V, open: no}" if between == "relay" else None
    text = pair("400 Ah").replace("feed: left -> right", f"feed: left/{'tie' if named else between} -> right")
    text = text.replace("nodes:", f"nodes:\n  tie: {named}") if named else text
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("share", "count"), [(0.95e-9, 0), (1.05e-9, 1)])
def test_a_billionth_is_rounding(share, count):
    assert len(found(RULE, pair(f"{250 * (1 + share)!r} Ah"))) == count


def test_a_battery_alone_may_be_as_large_as_it_is():
    assert found(RULE, pair("600 Ah", second=", duty: starter")) == ()


@pytest.mark.parametrize("tie", ["{kind: switch, rating: 300 A}", "{kind: shunt, rating: 300 A}"])
def test_what_two_lines_land_on_joins_them_as_well(tie):
    """No path goes through it: a line ends on either side."""
    ends = ("tie.battery", "tie.system") if "shunt" in tie else ("tie.1", "tie.2")
    text = pair("400 Ah").replace("nodes:", f"nodes:\n  tie: {tie}")
    text = text.replace("  - {feed: left -> right,", f"  - {{feed: left -> {ends[0]}, return: none, wire: 2/0 AWG 0.2 m}}\n"
                        f"  - {{feed: {ends[1]} -> right,")
    text = text.replace(f"{ends[1]} -> right, return: left -> right, wire: {{feed: 2/0 AWG 0.3 m, return: 2/0 AWG 0.3 m}}",
                        f"{ends[1]} -> right, return: none, wire: 2/0 AWG 0.2 m")
    assert len(found(RULE, text)) == 1


def test_in_a_stack_of_two_rows_the_upper_row_is_told():
    """Two rows of two, joined in the middle: what is said of the upper one holds for the lower one."""
    text = """
nodes:
  a: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah}
  b: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah}
  c: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah}
  d: {kind: battery, chemistry: agm, voltage: 12 V, capacity: 300 Ah}
  box: {kind: panel, rating: 60 A}
circuits:
  - {series: a -> c, wire: 4 AWG 0.2 m}
  - {series: b -> d, wire: 4 AWG 0.2 m}
  - {feed: a -> b, return: a -> b, wire: {feed: 4 AWG 0.2 m, return: 4 AWG 0.2 m}}
  - {feed: c -> d, return: none, wire: 4 AWG 0.2 m}
  - {feed: d/fuse class-t 50 A -> box, return: a -> box, wire: {feed: 6 AWG 1 m, return: 6 AWG 1 m}}
"""
    assert [one.nodes for one in found(RULE, text)] == [("c", "d")]
