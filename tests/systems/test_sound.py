"""A finding that is wrong is as bad as one that is missing: sound systems give none at danger or warning.

The ordinary run takes a few dozen; `--systems 3000 --first 7000` takes as many as one likes, from any seed.
"""

from __future__ import annotations

from tests.systems import build, render
from tests.systems.findings import marks

SIZES = (5, 6, 8, 12, 20, 30, 40)
USUAL = 60


def test_sound_systems_give_no_danger_and_no_warning(request):
    wrong, first = {}, request.config.getoption("--first")
    for seed in range(first, first + (request.config.getoption("--systems") or USUAL)):
        _, loud = marks(render(build(seed, SIZES[seed % len(SIZES)])))
        if loud:
            wrong[seed, SIZES[seed % len(SIZES)]] = loud
    assert not wrong
