"""One fault in a sound system: the finding it must give, where it must stand, and no other.

The ordinary run takes a few systems a sort; `--systems 9000 --first 20000` divides as many as one likes, from any seed.
"""

from __future__ import annotations

from functools import cache

import pytest

from tests.systems import build, render
from tests.systems.faults import SORTS, Seeded, seed_fault
from tests.systems.findings import marks
from tests.systems.model import Model
from tests.systems.samples import SAMPLES, sample

SIZES = (12, 20, 30, 40)
USUAL = 2  # systems that each sort is tried in; `--systems` takes more
TRIES = 400  # seeds looked at for a system that can have the fault

sound = cache(build)
sample = cache(sample)


def exact(fault: Seeded, before: frozenset[str]) -> bool:
    """Whether what must be found is found that was not before, and nothing else at danger or warning."""
    found, loud = marks(render(fault.model))
    return fault.hits([mark for mark in found if mark in loud or mark not in before]) and not fault.strays(loud)


@cache
def noticed(seed: int, size: int) -> frozenset[str]:
    return frozenset(marks(render(sound(seed, size)))[0])


@pytest.mark.parametrize("sort", sorted(SORTS))
def test_a_seeded_fault_is_found_exactly(sort, request):
    wanted = max(USUAL, request.config.getoption("--systems") // len(SORTS))
    first = request.config.getoption("--first")
    tried, wrong = 0, []
    for seed in range(first, first + max(TRIES, 60 * wanted)):
        size = SIZES[seed % len(SIZES)]
        fault = seed_fault(sound(seed, size), sort, seed)
        if fault is None:
            continue
        if not exact(fault, noticed(seed, size)):
            wrong.append((seed, size, fault.marks, marks(render(fault.model))))
        tried += 1
        if tried == wanted:
            break
    assert tried and not wrong


@pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)
def test_a_sample_read_as_a_model_is_sound(file):
    model: Model = sample(file)
    assert marks(render(model)) == ([], [])
    assert sum(not circuit.part for circuit in model.circuits) <= 3  # faults look for the others by their parts


@pytest.mark.parametrize("file", SAMPLES, ids=lambda file: file.stem)
def test_every_fault_that_a_sample_can_have_is_found_exactly(file, request):
    model, tried = sample(file), 0
    for sort in sorted(SORTS):
        for seed in range(max(1, request.config.getoption("--systems") // 100)):
            fault = seed_fault(model, sort, seed)
            if fault is not None:
                assert exact(fault, frozenset()), (sort, seed, fault.marks, marks(render(fault.model)))
                tried += 1
    assert tried > 60
