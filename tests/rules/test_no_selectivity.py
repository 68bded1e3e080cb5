"""Branch devices against the one ahead."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "no-selectivity"
NODES = "  box: {kind: panel, rating: 40 A, pair: return-bar}\n" + "\n".join(
    f"  {name}: {{kind: load, voltage: 12 V, power: 20 W}}" for name in ("lamp", "fan"))
FAN = "{feed: box/fuse 3 A -> fan, wire: 14 AWG 2 m}"


@pytest.mark.parametrize(("amps", "count"), [("15 A", 0), ("20 A", 1), ("30 A", 1)])
def test_smaller_than_the_one_ahead(amps, count):
    text = van("{feed: feed-bar/fuse 20 A -> box, wire: 8 AWG 1 m}",
        f"{{feed: box/fuse {amps} -> lamp, wire: 10 AWG 2 m}}", FAN, nodes=NODES)
    assert len(found(RULE, text)) == count


def test_two_in_a_row_that_feed_the_same_do_not_matter():
    text = van("{feed: feed-bar/fuse 20 A -> breaker 20 A/box, wire: 8 AWG 1 m}",
        "{feed: box/fuse 10 A -> lamp, wire: 10 AWG 2 m}", FAN, nodes=NODES)
    assert found(RULE, text) == ()


def test_two_devices_that_feed_a_bar_together_count_together():
    text = van("{feed: two/fuse class-t 100 A -> feed-bar, return: two -> bank, wire: 2 AWG 0.5 m}",
               "{feed: feed-bar/fuse class-t 250 A -> lamp, wire: 4/0 AWG 1 m}",
               "{feed: feed-bar/fuse 5 A -> fan, wire: 14 AWG 1 m}",
               nodes=f"{NODES}\n  two: {{kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}}")
    assert found(RULE, text) == ()


@pytest.mark.parametrize(("own", "other", "count"), [("20 A", "20 A", 0), ("40 A", "20 A", 1), ("39 A", "20 A", 0)])
def test_what_feeds_from_two_sides_counts_together(own, other, count):
    nodes = NODES + "\n  two: {kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah, pair: return-bar}"
    text = van("{feed: feed-bar/fuse 20 A -> box, wire: 8 AWG 1 m}",
               f"{{feed: two/fuse {other} -> box, return: two -> return-bar, wire: 8 AWG 1 m}}",
               f"{{feed: box/fuse {own} -> lamp, wire: 8 AWG 2 m}}", FAN, nodes=nodes)
    assert len(found(RULE, text)) == count


@pytest.mark.parametrize(("main", "branch", "count"), [("20 A", "20 A", 1), ("", "20 A", 0), ("20 A", "", 0)])
def test_without_a_rating_nothing_is_compared(main, branch, count):
    text = van(f"{{feed: feed-bar/fuse {main} -> box, wire: 8 AWG 1 m}}",
               f"{{feed: box/fuse {branch} -> lamp, wire: 8 AWG 2 m}}", FAN, nodes=NODES)
    assert len([one for one in found(RULE, text) if one.nodes == ("F3", "F2")]) == count


def test_what_hangs_between_without_a_device_goes_dark_as_well():
    text = van("{feed: feed-bar/fuse 20 A -> box, wire: 8 AWG 1 m}", "{feed: box/fuse 20 A -> lamp, wire: 10 AWG 2 m}",
               "{feed: box -> fan, wire: 10 AWG 1 m}", nodes=NODES)
    assert [one.nodes for one in found(RULE, text)] == [("F3", "F2")]


def test_at_a_bank_nothing_stands_ahead():
    """The fuse of the bank beside is no device ahead of the main one: behind that stands a bank of its own."""
    text = van("{feed: two/fuse class-t 100 A -> bank, return: two -> bank, wire: 2 AWG 0.5 m}",
               "{feed: bank/fuse class-t 20 A -> lamp, return: return-bar, wire: 10 AWG 1 m}".replace("return: return-bar, ", ""),
               nodes=f"{NODES}\n  two: {{kind: bank, chemistry: lifepo4, voltage: 12 V, capacity: 100 Ah}}")
    assert found(RULE, text) == ()


def test_two_poles_in_series_are_one_device():
    """A breaker both of whose poles the feed passes, a lamp between them."""
    text = van("{feed: feed-bar/fuse 20 A -> box, wire: 8 AWG 1 m}",
               "{feed: box/Q-both.1 -> lamp -> Q-both.3 -> fan, return: none, wire: [8 AWG 1 m, 1 m, 1 m]}",
               "{feed: box/fuse 3 A -> third, wire: 14 AWG 1 m}",
               nodes=NODES + "\n  Q-both: {kind: breaker, rating: 15 A, poles: 2}\n"
                             "  third: {kind: load, voltage: 12 V, power: 5 W}")
    assert found(RULE, text) == ()


def test_a_device_of_two_lines_is_told_once():
    text = """
nodes:
  dock:  {kind: shore, rating: 50 A, phases: 2+N}
  box:   {kind: ac panel, rating: 50 A, phases: 2+N}
  sub:   {kind: ac panel, rating: 50 A, phases: 2+N}
  stove: {kind: ac load, power: 1 kW}
  kettle: {kind: ac load, power: 1 kW}
circuits:
  - {ac: dock/breaker 2-pole 30 A Q-main -> box, wire: 6 AWG 1 m}
  - {ac: box/breaker 2-pole 30 A Q-sub -> sub, wire: 6 AWG 1 m}
  - {ac: box.L1/breaker 15 A -> stove, wire: 12 AWG 1 m}
  - {ac: box.L2/breaker 15 A -> kettle, wire: 12 AWG 1 m}
"""
    assert [one.nodes for one in found(RULE, text)] == [("Q-sub", "Q-main")]
