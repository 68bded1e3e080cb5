"""Behind shore power alone live and neutral can be swapped on land."""

from __future__ import annotations

import pytest

from tests.rules.variants import bad

RULE = "one-pole-inlet"


@pytest.mark.parametrize(("source", "load", "device", "count"), [
    ("kind: shore, rating: 16 A", "power: 1 kW", "breaker Q-main 15 A", 1),
    ("kind: shore, rating: 16 A", "power: 1 kW", "breaker Q-main 2-pole 15 A", 0),
    ("kind: generator, power: 2 kW, neutral: bonded", "power: 1 kW", "breaker Q-main 15 A", 0),
    ("kind: shore, rating: 16 A, phases: 2, voltage: 240 V", "power: 1 kW, phases: 2, voltage: 240 V",
     "breaker Q-main 2-pole 15 A", 0),  # no neutral
    ("kind: shore, rating: 16 A, phases: 2+N", "power: 1 kW, phases: 2+N", "breaker Q-main 2-pole 15 A", 1),
    ("kind: shore, rating: 16 A, phases: 2+N", "power: 1 kW, phases: 2+N", "breaker Q-main 3-pole 15 A", 0),
])
def test_which_first_device(source, load, device, count):
    found = bad(RULE, ("kind: shore, rating: 16 A", source), ("power: 1 kW", load), ("breaker Q-main 15 A", device))
    assert [one.nodes for one in found] == [("Q-main",)] * count
