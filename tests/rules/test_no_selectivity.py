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
