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
    assert len(beside(feed("4 AWG 2 m"), feed("6 AWG 2 m", f"/fuse 60 A/{via}"))) == count
    assert len(beside(feed("4 AWG 2 m"), feed("6 AWG 2 m", f"/{via}/fuse 60 A"))) == count


def test_a_line_that_is_blamed_already_is_left_out():
    """Without a fuse of its own it is not yet what will lie there."""
    assert beside(feed("4 AWG 2 m"), feed("6 AWG 2 m", "")) == ()


def test_without_a_length_nothing_is_longer():
    assert beside(feed("4 AWG 2 m"), feed("4 AWG")) == ()


def test_a_shunt_changes_nothing():
    """A meter in each of two returns beside one another."""
    nodes = LAMP + "\n  gauge: {kind: shunt, rating: 100 A}\n  gauge-2: {kind: shunt, rating: 100 A}"
    lines = [f"return: return-bar -> {gauge} -> lamp, wire: [{wire} 1 m, 1 m]"
             for gauge, wire in (("gauge", "14 AWG"), ("gauge-2", "12 AWG"))]
    assert len(beside(*lines, nodes)) == 1


@pytest.mark.parametrize(("ends", "count"), [
    ("return-bar -> back", 1), ("back -> hull", 0), ("hull -> back", 0), ("back/plug 100 A -> hull", 0)])
def test_returns_that_are_written_and_what_ends_on_a_hull(ends, count):
    """A hull or chassis carries the returns of many."""
    nodes = LAMP + "\n  hull: {kind: hull}\n  back: {kind: bar, rating: 100 A}"
    lines = [f"return: {ends}, wire: {wire} 2 m" for wire in ("4 AWG", "6 AWG")]
    assert len(beside(*lines, nodes)) == count


def test_a_plug_behind_the_fuse_changes_nothing():
    assert len(beside(feed("4 AWG 2 m"), feed("[6 AWG 0.1 m, 1 m, 0.9 m]", " -> fuse 60 A -> plug 60 A"))) == 1


@pytest.mark.parametrize(("one", "other"), [
    ("bond: return-bar -> hull, wire: 4 AWG 2 m", "bond: return-bar -> hull, wire: 6 AWG 2 m"),
    ("ac: quay/breaker 2-pole 10 A -> box, wire: 10 AWG 2 m", "ac: quay/breaker 2-pole 10 A -> box, wire: 12 AWG 2 m")])
def test_bonds_and_cables_of_ac_are_another_matter(one, other):
    nodes = LAMP + "\n  hull: {kind: hull}\n  quay: {kind: shore, rating: 16 A}\n  box: {kind: ac panel, rating: 16 A}"
    assert beside(one, other, nodes) == ()


def test_other_ends_are_not_beside():
    other = "feed: feed-bar/fuse 60 A -> lamp-2, wire: 6 AWG 2 m"
    assert beside(feed("4 AWG 2 m"), other, LAMP + "\n  lamp-2: {kind: load, voltage: 12 V, power: 20 W}") == ()


def test_a_return_that_follows_by_itself_is_the_feeds_matter():
    """Two loads' lines to one load of two feeds: the returns are as long as what they follow."""
    lamp = "  lamp: {kind: load, voltage: 12 V, power: 20 W}"
    text = van("{name: one, feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 2 m}",
               "{name: two, feed: feed-bar/fuse 10 A -> lamp, wire: 14 AWG 4 m}", nodes=lamp)
    assert [one.conductors for one in found(RULE, text)] == [("two:f0", "one:f0")]


def test_two_returns_that_follow_by_themselves_are_the_feeds_matter():
    nodes = ("  far: {kind: bar, rating: 100 A, pair: far-return}\n  far-return: {kind: bar, rating: 100 A}\n"
             "  lamp: {kind: load, voltage: 12 V, power: 20 W}")
    text = van("{name: one, feed: feed-bar/fuse 60 A -> far, wire: 4 AWG 2 m}",
               "{name: two, feed: feed-bar/fuse 60 A -> far, wire: 4 AWG 3 m}", HANGS, nodes=nodes)
    assert [one.conductors for one in found(RULE, text)] == [("two:f0", "one:f0")]


@pytest.mark.parametrize(("second", "count"), [("4 AWG 0.2 m", 0), ("2 AWG 0.2 m", 1)])
def test_two_links_of_a_stack(second, count):
    text = f"""
nodes:
  low:  {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}}
  high: {{kind: battery, chemistry: agm, voltage: 12 V, capacity: 100 Ah}}
  box:  {{kind: panel, rating: 60 A}}
circuits:
  - {{series: low -> high, wire: 4 AWG 0.2 m}}
  - {{series: low -> high, wire: {second}}}
  - {{feed: high/fuse strip 50 A -> box, return: low -> box, wire: {{feed: 6 AWG 1 m, return: 6 AWG 1 m}}}}
"""
    assert len(found(RULE, text)) == count
