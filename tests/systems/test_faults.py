"""One fault in a sound system: the finding it must give, where it must stand, and no other."""

from __future__ import annotations

from functools import cache

import pytest

from tests.systems import build, render
from tests.systems.faults import SORTS, seed_fault
from tests.systems.findings import marks

SIZES = (12, 20, 30, 40)
USUAL = 2  # systems that each sort is tried in; `--systems` takes more
TRIES = 400  # seeds looked at for a system that can have the fault

sound = cache(build)


@pytest.mark.parametrize("sort", sorted(SORTS))
def test_a_seeded_fault_is_found_exactly(sort, request):
    wanted = max(USUAL, request.config.getoption("--systems") // len(SORTS))
    tried, wrong = 0, []
    for seed in range(max(TRIES, 60 * wanted)):
        size = SIZES[seed % len(SIZES)]
        fault = seed_fault(sound(seed, size), sort, seed)
        if fault is None:
            continue
        found, loud = marks(render(fault.model))
        if not fault.hits(found) or fault.strays(loud):
            wrong.append((seed, size, fault.marks, loud))
        tried += 1
        if tried == wanted:
            break
    assert tried and not wrong
