"""String voltages against pvlib's single-diode model of one module of its CEC list: within 1 % from -40 to 70 °C."""

import pytest

from diagrammer.electrics import solar

pvsystem = pytest.importorskip("pvlib.pvsystem")


@pytest.fixture(scope="module")
def module():
    return pvsystem.retrieve_sam("CECMod").iloc[:, 131]  # 60 mono cells, Voc 39.4 V, Vmp 31.2 V


def parameters(module, cell=25, irradiance=1000):
    names = ("alpha_sc", "a_ref", "I_L_ref", "I_o_ref", "R_sh_ref", "R_s", "Adjust")
    return pvsystem.calcparams_cec(irradiance, cell, *(module[name] for name in names))


def diode(module, cell=25, irradiance=1000):
    return pvsystem.singlediode(*parameters(module, cell, irradiance), method="lambertw")


def test_it_is_the_module_meant(module):
    assert (module.V_oc_ref, module.V_mp_ref) == (39.4, 31.2)
    assert module.beta_oc == pytest.approx(-0.11032)


@pytest.mark.parametrize("cell", range(-40, 26, 5))
def test_open_circuit_voltage_in_the_cold(module, cell):
    ours = solar.coldest_voltage(39.4, 3, cell, drift=-0.11032)
    assert ours == pytest.approx(3 * float(diode(module, cell)["v_oc"]), rel=0.01)


@pytest.mark.parametrize("cell", range(-40, 26, 5))
def test_the_nec_table_is_on_the_safe_side(module, cell):
    assert solar.coldest_voltage(39.4, 1, cell) >= float(diode(module, cell)["v_oc"]) * 0.9999


@pytest.mark.parametrize("cell", range(25, 71, 5))
def test_maximum_power_voltage_in_the_heat(module, cell):
    drift = (25.770 - 31.2) / 45  # the model's own, between 25 and 70 °C
    ours = solar.hottest_voltage(31.2, 1, cell - 30, drift=drift)
    assert ours == pytest.approx(float(diode(module, cell)["v_mp"]), rel=0.01)
    falling = solar.at_temperature(39.4, cell, drift=-0.11032)
    assert falling == pytest.approx(float(diode(module, cell)["v_oc"]), rel=0.0125)


@pytest.mark.parametrize("irradiance", (200, 400, 600, 800, 1000))
def test_current_in_proportion_to_the_light(module, irradiance):
    full, part = diode(module), diode(module, irradiance=irradiance)
    ours = solar.array(39.4, 31.2, float(full["i_sc"]), float(full["i_mp"]), irradiance=irradiance)
    assert ours.isc == pytest.approx(float(part["i_sc"]), rel=0.01)
    assert ours.imp == pytest.approx(float(part["i_mp"]), rel=0.02)


@pytest.mark.parametrize("volts", (0.0, 12.0, 14.4, 20.0, 26.0, 28.8, 31.2, 33.0, 34.0))
def test_current_at_the_bank_s_voltage(module, volts):
    """2 % up to maximum power (31.2 V), 10 % beyond the knee."""
    full = diode(module)
    array = solar.array(39.4, 31.2, float(full["i_sc"]), float(full["i_mp"]))
    expected = float(pvsystem.i_from_v(volts, *parameters(module)))
    assert solar.pwm(array, volts, 100).amps == pytest.approx(expected, rel=0.02 if volts <= 31.2 else 0.1)
