"""Ratings against what is made."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van


@pytest.mark.parametrize(("device", "count"), [
    ("fuse blade 7.5 A", 0), ("fuse blade 12 A", 1), ("fuse 7.5 A", 0), ("fuse 11 A", 1), ("fuse class-t 110 A", 0),
    ("fuse anl 110 A", 1), ("breaker 13 A", 0), ("breaker curve-b 16 A", 0), ("breaker 17 A", 1),
    ("fuse nh 63 A", 0), ("fuse nh 60 A", 1),
])
def test_made(device, count):
    text = van(f"{{feed: feed-bar/{device} -> lamp, wire: 2 AWG 1 m}}",
        nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}")
    assert len(found("odd-rating", text)) == count


def test_names_the_nearest():
    (one,) = found("odd-rating", van("{feed: feed-bar/fuse blade 12 A -> lamp, wire: 10 AWG 1 m}",
    nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}"))
    assert "10 A or 15 A" in one.fix and one.severity == "notice"
