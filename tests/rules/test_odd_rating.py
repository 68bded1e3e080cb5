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
    assert one.fix == "Take 10 A or 15 A, and check the conductor against it." and one.severity == "notice"


@pytest.mark.parametrize(("device", "fix"), [
    ("fuse blade 0.5 A", "Take 1 A, and"), ("fuse blade 101 A", "Take 100 A, and"),  # ISO 8820-3
    ("fuse nh 1260 A", "Take 1.25 kA, and"), ("breaker 24 A", "Take 20 A or 25 A, and"),
    ("breaker 7000 A", "Take 6 kA, and"), ("breaker 0.9 A", "Take 1 A, and")])  # NEC 240.6(A)
def test_at_the_ends_of_a_list_there_is_one_neighbour(device, fix):
    (one,) = found("odd-rating", van(f"{{feed: feed-bar/{device} -> lamp, wire: 10 AWG 1 m}}",
                                     nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}"))
    assert one.fix.startswith(fix)


@pytest.mark.parametrize("device", ["fuse blade", "breaker", "switch 33 A"])
def test_without_a_rating_and_of_what_breaks_no_fault_nothing_is_said(device):
    text = van(f"{{feed: feed-bar/fuse 10 A/{device} -> lamp, wire: 10 AWG 1 m}}",
               nodes="  lamp: {kind: load, voltage: 12 V, power: 20 W}")
    assert found("odd-rating", text) == ()
