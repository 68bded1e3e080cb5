"""What is said of strings that are not fused, and where it begins."""

from __future__ import annotations

import pytest

from tests.rules.asked import found, van

RULE = "unfused-strings"
LINES = ("{feed: roof -> switch 2-pole 32 A -> sun.pv, wire: [10 AWG 5 m, 1 m]}",
         "{feed: sun -> fuse 30 A/feed-bar, wire: 8 AWG 1 m}")


def array(parallel: int, more: str = "") -> str:
    nodes = (f"  roof: {{kind: pv, power: 100 W, voc: 22 V, isc: 6 A, parallel: {parallel}{more}}}\n"
             "  sun: {kind: solar charger, type: mppt, max pv voltage: 60 V, output: 20 A}")
    return van(*LINES, nodes=nodes)


@pytest.mark.parametrize(("parallel", "more", "count"), [
    (1, "", 0), (2, "", 0), (3, "", 1), (3, ", string fuse: 10 A", 0),
    (3, ", max series fuse: 15 A", 0),  # the other two give 1.25 x 2 x 6 A = 15 A (NEC 690.8(A)(1), 690.9(A))
    (3, ", max series fuse: 14.9 A", 1), (4, ", max series fuse: 15 A", 1),
])
def test_how_many_strings(parallel, more, count):
    assert len(found(RULE, array(parallel, more))) == count


@pytest.mark.parametrize(("more", "said", "fix"), [
    ("", "its modules state no largest series fuse, so what one other string gives, 7.5 A, is the most",
     "Put a gPV fuse that the modules' maker allows in each string."),
    (", max series fuse: 10 A", "10 A is the largest series fuse its modules may have",
     "Put a gPV fuse of at most 10 A in each string."),
])
def test_messages(more, said, fix):
    (one,) = found(RULE, array(3, more))
    assert one.message == (f"3 strings in parallel without a fuse each: the others can drive 15 A into one; {said}")
    assert one.fix == fix
