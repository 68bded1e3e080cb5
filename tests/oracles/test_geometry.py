"""AWG and circular mils against values of GNU units 2.22 (wiregauge, ASTM B258), to its eight digits."""

import pytest

from diagrammer.electrics.conductor import area
from diagrammer.quantity import Size, awg, mm2

DIAMETERS = {  # [mm]; -3 is 4/0
    18: 1.0237, 16: 1.2908, 14: 1.6277, 12: 2.0525, 10: 2.5882, 8: 3.2636, 6: 4.1154, 4: 5.1894, 3: 5.8273, 2: 6.5437,
    1: 7.3481, 0: 8.2515, -1: 9.2658, -2: 10.4049, -3: 11.6840,
}
AREAS = {  # [mm²] and [circular mil]
    18: (0.8230, 1624), 16: (1.3087, 2583), 14: (2.0809, 4107), 12: (3.3088, 6530), 10: (5.2612, 10383),
    8: (8.3656, 16510), 6: (13.3018, 26251), 4: (21.1506, 41741), 3: (26.6705, 52635), 2: (33.6308, 66371),
    1: (42.4077, 83693), 0: (53.4751, 105535), -1: (67.4309, 133077), -2: (85.0288, 167806), -3: (107.2193, 211600),
}


@pytest.mark.parametrize("number", AREAS)
def test_awg(number):
    square, mils = AREAS[number]
    assert area(awg(number)) == pytest.approx(square, abs=5.1e-5)
    assert area(awg(number)) / 5.0670748e-4 == pytest.approx(mils, abs=0.51)
    assert (area(awg(number)) * 4 / 3.141592653589793) ** 0.5 == pytest.approx(DIAMETERS[number], abs=5.1e-5)


def test_the_ends_that_define_the_gauge():
    """ASTM B258: 36 AWG is 0.005 in, 4/0 is 0.46 in across."""
    assert area(awg(36)) == pytest.approx(3.141592653589793 / 4 * 0.127**2, rel=1e-12)
    assert area(awg(-3)) == pytest.approx(3.141592653589793 / 4 * 11.684**2, rel=1e-12)


def test_kcmil_and_metric():
    assert area(Size("kcmil", 250)) == pytest.approx(126.67687, abs=1e-5)
    assert area(mm2(35)) == 35
    with pytest.raises(ValueError):
        area(Size("SWG", 10))


def test_labels():
    assert (awg(-3).label, awg(0).label, awg(14).label) == ("4/0 AWG", "1/0 AWG", "14 AWG")
