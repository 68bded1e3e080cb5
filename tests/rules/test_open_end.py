"""How it is told of what leads nowhere."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van


@pytest.mark.parametrize(("nodes", "line", "said"), [
    ("key: {kind: switch, rating: 10 A}", "{feed: feed-bar/fuse 5 A -> key.1, return: none, wire: 14 AWG 1 m}",
     "`key` leads nowhere: one of its sides is wired, the other is not"),
    ("stud: {kind: joint}", "{feed: feed-bar/fuse 5 A -> stud, return: none, wire: 14 AWG 1 m}",
     "`stud` leads nowhere: a single conductor lands on it"),
    ("alt: {kind: alternator, output: 60 A}", "{return: alt -> return-bar, wire: 6 AWG 1 m}",
     "`alt` leads nowhere: its return is wired, its feed is not"),
])
def test_what_leads_nowhere(nodes, line, said):
    (one,) = found("open-end", van(line, nodes=f"  {nodes}"))
    assert (one.message, one.severity) == (said, "warning")
