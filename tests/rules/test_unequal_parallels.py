"""Conductors laid beside one another: alike, or not."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "unequal-parallels"
LAMP = "  lamp: {kind: load, voltage: 12 V, power: 20 W}\n  far: {kind: bar, rating: 100 A, pair: return-bar}"
HANGS = "{feed: far/fuse 5 A -> lamp, wire: 14 AWG 2 m}"


def beside(one: str, other: str, nodes: str = LAMP):
    return found(RULE, van(f"{{name: one, {one}}}", f"{{name: two, {other}}}", HANGS, nodes=nodes))


def feed(wire: str, via: str = "/fuse 60 A") -> str:
    return f"feed: feed-bar{via} -> far, return: none, wire: {wire}"


@pytest.mark.parametrize(("wire", "said"), [
    ("4 AWG 2 m", ""), ("6 AWG 2 m", "4 AWG and 6 AWG"), ("4 AWG 3 m", "2 m and 3 m long"),
    ("4 AWG 2.1 m", ""), ("4 AWG 2.101 m", "2 m and 2.1 m long"), ("4 AWG 1.905 m", ""),
    ("4 AWG 1.904 m", "2 m and 1.9 m long"), ("2 parallel 4 AWG 2 m", "4 AWG and 4 AWG"), ("{size: 4 AWG, length: 2 m, material: tinned}", ""),
    ("{size: 4 AWG, length: 2 m, material: aluminium}", "of copper and of aluminium"),  # NEC 310.10(G)
])
def test_size_and_length(wire, said):
    findings = beside(feed("4 AWG 2 m"), feed(wire))
    assert [one.message.endswith(said) for one in findings] == ([True] if said else [])
    if said:
        assert findings[0].conductors == ("two:f0", "one:f0") and findings[0].message.startswith("`one` and `two`")


@pytest.mark.parametrize(("via", "count"), [
    ("fuse 60 A", 1), ("breaker 60 A", 1), ("switch 60 A", 0), ("switch battery 60 A", 0)])
def test_what_can_be_opened_shares_nothing_for_good(via, count):
    assert len(beside(feed("4 AWG 2 m"), feed("[6 AWG 0.1 m, 1.9 m]", f" -> {via}"))) == count


def test_a_plug_behind_the_fuse_changes_nothing():
    assert len(beside(feed("4 AWG 2 m"), feed("[6 AWG 0.1 m, 1 m, 0.9 m]", " -> fuse 60 A -> plug 60 A"))) == 1


def test_other_ends_are_not_beside():
    other = "feed: feed-bar/fuse 60 A -> lamp-2, wire: 6 AWG 2 m"
    assert beside(feed("4 AWG 2 m"), other, LAMP + "\n  lamp-2: {kind: load, voltage: 12 V, power: 20 W}") == ()


def test_a_return_that_follows_by_itself_is_the_feeds_matter():
    """Two loads' lines to one load of two feeds: the returns are as long as what they follow."""
    lamp = "  lamp: {kind: load, voltage: 12 V, power: 20 W}"
    text = van("{name: one, feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 2 m}",
               "{name: two, feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 4 m}", nodes=lamp)
    assert [one.conductors for one in found(RULE, text)] == [("two:f0", "one:f0")]
