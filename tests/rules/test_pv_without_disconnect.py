"""What isolates an array, in either pole."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad, good

RULE = "pv-without-disconnect"
SWITCH = "switch 2-pole 20 A"


@pytest.mark.parametrize("device, expected",
                         [(SWITCH, 0), ("switch 20 A", 0), ("breaker 2-pole dc 20 A", 0), ("fuse gpv 20 A", 1),
                          ("plug 20 A", 1)])
def test_the_device(device, expected):
    assert len(good(RULE, (SWITCH, device))) == expected


def test_a_switch_in_the_return_alone():
    line = ("{feed: roof -> sun.pv, return: roof -> switch 20 A -> sun.pv, "
            "wire: {feed: 10 AWG 4 m, return: [10 AWG 2 m, 2 m]}}")
    assert bad(RULE, ("{feed: roof -> sun.pv, wire: 10 AWG 4 m}", line)) == ()
