"""Short circuits and what conductors stand of them."""

import pytest

from diagrammer.electrics import adiabatic, fault
from diagrammer.quantity import mm2


def test_the_largest_is_cold_and_full_the_smallest_hot_and_empty():
    """35 mm² class 5 (0.554 mohm/m at 20 °C), 6 m; hot by 0.00393 per kelvin."""
    runs = [(mm2(35), 6.0)]
    assert fault.largest(14.6, 2e-3, runs) == pytest.approx(14.6 / (2e-3 + 6 * 0.554e-3))
    assert fault.smallest(10.0, 2e-3, runs, hot=90) == pytest.approx(10 / (2e-3 + 6 * 0.554e-3 * 1.2751))


def test_rise():
    short = fault.fault(12, 2e-3, 4e-6)
    assert short.at(0) == 0
    assert short.at(short.tau) == pytest.approx(6000 * 0.632120559)
    assert short.at(1) == pytest.approx(6000)
    assert fault.fault(12, 2e-3).at(1e-9) == 6000


def test_no_resistance_is_no_question():
    with pytest.raises(ValueError):
        fault.fault(12, 0)
    with pytest.raises(ValueError):
        fault.bank(2000, parallel=0)


def test_a_stated_short_circuit_current_is_a_resistance():
    assert fault.source_resistance(25.6, 8000) == pytest.approx(3.2e-3)
    assert fault.largest(25.6, fault.source_resistance(25.6, 8000)) == pytest.approx(8000)


def test_estimates_by_chemistry():
    """Lead 10 times the capacity, at most 20 (common practice); lifepo4 from 3.2 V over 0.07 ohm Ah a cell."""
    assert fault.estimated("agm", 100) == 1000 and fault.estimated("agm", 100, most=True) == 2000
    assert fault.estimated("lifepo4", 280) == pytest.approx(3.2 / 0.07 * 280, rel=0.02)
    with pytest.raises(ValueError):
        fault.estimated("zinc", 100)


def test_k_by_insulation():
    """IEC 60364-4-43 Table 43A; 105 °C by the formula of IEC 60949; above it the insulation is no pvc."""
    assert adiabatic.k(70) == 115 and adiabatic.k(90) == 100 and adiabatic.k(105) == 87.6
    assert adiabatic.k(90, kind="xlpe") == 143 and adiabatic.k(60, kind="rubber") == 141
    assert adiabatic.k(70, "aluminium") == 76 and adiabatic.k(90, "aluminium") == 66
    assert adiabatic.k(90, "aluminium", "xlpe") == 94 and adiabatic.k(125, "aluminium") < 94
    assert adiabatic.k(70, "tinned") == 115
    assert adiabatic.k(75) == pytest.approx(adiabatic.k_between(75, 160))
    assert adiabatic.k(125) == pytest.approx(adiabatic.k_between(125, 250))


@pytest.mark.parametrize("initial, final, material, k", [  # IEC 60949, to the digit that the tables print
    (70, 160, "copper", 115.0), (70, 140, "copper", 102.8), (90, 160, "copper", 99.9), (90, 250, "copper", 143.1),
    (60, 200, "copper", 140.9), (105, 160, "copper", 87.6), (70, 160, "aluminium", 76.0),
])
def test_k_by_formula(initial, final, material, k):
    assert adiabatic.k_between(initial, final, material) == pytest.approx(k, abs=0.06)


def test_let_through():
    """35 mm² in PVC stands 1.62e7 A² s."""
    assert adiabatic.withstands(1.61e7, 35, 115) and not adiabatic.withstands(1.63e7, 35, 115)


def test_time_and_section_agree():
    seconds = adiabatic.longest(16, 3000, 115)
    assert adiabatic.thinnest(3000, seconds, 115) == pytest.approx(16)


@pytest.mark.parametrize("call", [lambda: adiabatic.k(70, kind="paper"), lambda: adiabatic.k_between(160, 160)])
def test_no_k(call):
    with pytest.raises(ValueError):
        call()


def test_ac_behind_conductors():
    """230 V, 6 kA: 38.3 mΩ; behind 0.1 Ω 2148 A if that is a reactance, 0.95 x 1663 A if it is a resistance."""
    assert fault.ac_largest(230, 6000, 0) == pytest.approx(6000)
    assert fault.ac_largest(230, 6000, 0.1) == pytest.approx(230 / (0.1**2 + (230 / 6000) ** 2) ** 0.5)
    assert fault.ac_smallest(230, 6000, 0) == pytest.approx(5700)  # IEC 60909-0 Table 1: c min 0.95
    assert fault.ac_smallest(230, 6000, 0.1) == pytest.approx(0.95 * 230 / (0.1 + 230 / 6000))
    assert fault.ac_usual("shore", "abyc", "A") is None
