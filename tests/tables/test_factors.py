"""Factors on ampacities: every cell, and the formula behind them."""

import math

import pytest

from diagrammer.tables.load import load


def column(name, key, value):
    return {row[key]: float(row[value]) for row in load(name) if row[value]}


NEC = {  # NEC Table 310.15(B)(1)(1), read
    "60": "10:1.29 15:1.22 20:1.15 25:1.08 30:1 35:.91 40:.82 45:.71 50:.58 55:.41",
    "75": "10:1.2 15:1.15 20:1.11 25:1.05 30:1 35:.94 40:.88 45:.82 50:.75 55:.67 60:.58 65:.47 70:.33",
    "90": """10:1.15 15:1.12 20:1.08 25:1.04 30:1 35:.96 40:.91 45:.87 50:.82 55:.76 60:.71 65:.65 70:.58 75:.5 80:.41
        85:.29""",
}
IEC = {  # IEC 60364-5-52 Table B.52.14: PVC 35 to 60 °C read, the rest from memory
    "70": "10:1.22 15:1.17 20:1.12 25:1.06 30:1 35:.94 40:.87 45:.79 50:.71 55:.61 60:.5",
    "90": "10:1.15 15:1.12 20:1.08 25:1.04 30:1 35:.96 40:.91 45:.87 50:.82 55:.76 60:.71 65:.65 70:.58 75:.5 80:.41",
}
AMBIENT = [("ambient_nec", "upto", NEC, 0.006), ("ambient_iec", "ambient", IEC, 0.01)]


@pytest.mark.parametrize("name, key, expected, close", AMBIENT)
def test_ambient(name, key, expected, close):
    for insulation, text in expected.items():
        cells = {k: float(v) for k, v in (cell.split(":") for cell in text.split())}
        assert column(name, key, insulation) == cells
        for ambient, factor in cells.items():  # heat balance: sqrt((T - ambient) / (T - 30))
            hot = float(insulation)
            assert factor == pytest.approx(math.sqrt((hot - float(ambient)) / (hot - 30)), abs=close)


def test_engine_space():
    """33 CFR 183.425 Table 5 note 1 (0.85 read, the rest from memory); ISO 10133 Table A.1 note from memory."""
    cfr = {"60": .58, "75": .75, "80": .78, "90": .82, "105": .85, "125": .89, "200": 1}
    iso = {"70": .75, "85": .82, "105": .86, "125": .89, "200": 1}
    assert column("engine_space", "insulation", "cfr") == cfr
    assert column("engine_space", "insulation", "iso") == iso
    for insulation, computed in column("engine_space", "insulation", "formula").items():
        expected = math.sqrt((float(insulation) - 50) / (float(insulation) - 30))
        assert computed == pytest.approx(expected, abs=6e-4)


def test_bundles():
    """33 CFR 183.435(b) by its compliance guideline; NEC Table 310.15(C)(1); IEC Table B.52.17; ISO from memory."""
    found = {}
    for row in load("bundles"):
        found.setdefault(row["body"], []).append((row["from"], row["to"], float(row["factor"])))
    assert found["cfr"] == [("3", "3", .7), ("4", "6", .6), ("7", "24", .5), ("25", "", .4)]
    assert found["nec"] == [("4", "6", .8), ("7", "9", .7), ("10", "20", .5), ("21", "30", .45), ("31", "40", .4),
                            ("41", "", .35)]
    iec = {1: 1, 2: .8, 3: .7, 4: .65, 5: .6, 6: .57, 7: .54, 8: .52, 9: .5, 10: .48, 12: .45, 16: .41, 20: .38}
    assert found["iec"] == [(str(n), str(n), factor) for n, factor in iec.items()]
    assert found["iso"] == [("4", "6", .7), ("7", "24", .6), ("25", "", .5)]
