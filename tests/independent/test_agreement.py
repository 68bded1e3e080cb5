"""Two readings of the same definitions on the same systems: sound ones, and with one fault each.

A few hundred small ones in the ordinary run; `--systems 5000` takes as many as one likes.
"""

from __future__ import annotations

from random import Random

import pytest

from diagrammer.netlist.read import read
from tests.independent.opinion import FAMILIES, alarms, disagreements
from tests.systems import build, render
from tests.systems.faults import SORTS, seed_fault

SIZES = (5, 6, 8, 10, 12, 16)
USUAL = 120


def system(text: str):
    found, problems = read(text, "generated.yaml")
    assert found is not None, f"{problems}\n{text}"
    return found


@pytest.fixture(scope="module")
def count(request) -> int:
    return request.config.getoption("--systems") or USUAL


def test_nothing_is_wrong_with_sound_systems(count):
    for seed in range(count):
        made = system(render(build(seed, SIZES[seed % len(SIZES)])))
        for family in FAMILIES:
            assert not alarms(made, family), (seed, family)
        assert not disagreements(made), seed


def test_both_find_the_same_in_faulty_systems(count):
    seen = 0
    for seed in range(count):
        model = build(seed, SIZES[seed % len(SIZES)])
        for sort in Random(f"agreement {seed}").sample(sorted(SORTS), 8):
            fault = seed_fault(model, sort, seed)
            if fault:
                assert not disagreements(system(render(fault.model))), (seed, sort)
                seen += 1
    assert seen > count
