"""ABYC E-11 Table IX, conductor sizes for 3 % drop at 12 V: four rows of 19 lengths, reproduced with SAE areas.

Cells from memory; a printed copy gave the same counts: with K = 10.75 74 of 76 agree by SAE areas,
15 disagree by AWG.
"""

import pytest

from diagrammer.electrics.drop import area_for, circular_mils, thinnest
from diagrammer.electrics.conductor import KCMIL
from diagrammer.quantity import awg

FOOT = 0.3048
GAUGES = tuple(awg(n) for n in (18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3))
FEET = (10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 170)
PRINTED = {
    5: (18, 16, 14, 12, 12, 10, 10, 10, 8, 8, 8, 6, 6, 6, 6, 6, 6, 6, 6),
    10: (14, 12, 10, 10, 10, 8, 6, 6, 6, 6, 4, 4, 4, 4, 2, 2, 2, 2, 2),
    15: (12, 10, 10, 8, 8, 6, 6, 6, 4, 4, 2, 2, 2, 2, 2, 1, 1, 1, 1),
    20: (10, 10, 8, 6, 6, 6, 4, 4, 2, 2, 2, 2, 1, 1, 1, 0, 0, 0, -1),
}
ASTRAY = {(5, 170), (15, 60)}  # 15 A x 60 ft contradicts 10 A x 90 ft in the table itself
CELLS = [(amps, feet, awg(size)) for amps, row in PRINTED.items() for feet, size in zip(FEET, row)]


@pytest.mark.parametrize("amps, feet, size", [cell for cell in CELLS if cell[:2] not in ASTRAY])
def test_cell(amps, feet, size):
    assert thinnest(amps, feet * FOOT, 0.36, "abyc", GAUGES) == size


def test_the_two_cells_left_out_are_one_size_too_thin():
    for amps, feet in ASTRAY:
        assert thinnest(amps, feet * FOOT, 0.36, "abyc", GAUGES) == awg(4)


def test_awg_areas_would_miss_fifteen_cells():
    def by_awg(amps, feet):
        asked = area_for(amps, feet * FOOT, 0.36, "abyc") / KCMIL * 1000
        return next(size for size in GAUGES if circular_mils(size) >= asked)

    assert sum(by_awg(amps, feet) != size for amps, feet, size in CELLS) == 15
