"""What is said of a return thinner than its feed."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "thin-return"
NODES = "  winch: {kind: load, voltage: 12 V, power: 100 W}"


def line(feed: str, back: str, fuse: str = "fuse 30 A") -> str:
    return van(f"{{feed: feed-bar/{fuse} -> winch, wire: {{feed: {feed} 3 m, return: {back} 3 m}}}}", nodes=NODES)


@pytest.mark.parametrize(("feed", "back", "said"), [
    ("10 AWG", "16 AWG", "16 AWG, its feed 10 AWG: the feed lets 30 A through, 25 A is the most for the return"),
    ("10 AWG", "10 AWG", ""),
    ("2 parallel 14 AWG", "14 AWG", "14 AWG, its feed 2 parallel 14 AWG"),  # it may carry 35 A: enough
    ("2 parallel 14 AWG", "16 AWG",
     "16 AWG, its feed 2 parallel 14 AWG: the feed lets 30 A through, 25 A is the most for the return"),
])
def test_messages(feed, back, said):
    """33 CFR 183.425 Table 5, 105 °C: 16 AWG 25 A, 14 AWG 35 A."""
    said = [f"the return `return-bar` to `winch` is {said}"] if said else []
    assert [one.message for one in found(RULE, line(feed, back))] == said


def test_the_fix_is_the_size_of_the_feed():
    (one,) = found(RULE, line("2 parallel 14 AWG", "16 AWG"))
    assert one.fix == "Make it 2 parallel 14 AWG, like the feed."
    assert found(RULE, line("10 AWG", "16 AWG"))[0].fix == "Make it 10 AWG, like the feed."
