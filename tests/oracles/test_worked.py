"""46 worked examples from outside; "read": printed elsewhere, "computed": by an independent calculation."""

import math

import pytest

from diagrammer.electrics import adiabatic, battery, drop, fault, solar
from diagrammer.electrics.ampacity import ampacity
from diagrammer.electrics.conductor import KCMIL, RHO_20, area, heating, resistance
from diagrammer.electrics.flow import solve
from diagrammer.electrics.network import Branch, Collapse, Load, Network, Source
from diagrammer.electrics.protection import largest_device, next_rating
from diagrammer.quantity import awg, mm2

GAUGES = tuple(awg(n) for n in (18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3))
FOOT = 0.3048


def near(value, tolerance):
    return pytest.approx(value, abs=tolerance)


def cmil(amps, feet, volts):
    return drop.area_for(amps, feet * FOOT, volts, "abyc") / KCMIL * 1000


class TestVoltageDrop:
    def test_vd1_printed_10_awg_because_sae_gauges_are_smaller(self):
        """ABYC E-11, CM = K I L / E: 10 A, 21 ft, 3 % of 12 V. Read."""
        assert cmil(10, 21, 0.36) == near(6271, 0.5)
        assert drop.thinnest(10, 21 * FOOT, 0.36, "abyc", GAUGES) == awg(10)
        assert drop.circular_mils(awg(12)) > 6271 > drop.circular_mils(awg(12), "SAE")

    def test_vd2(self):
        """The same at 10 %. Read: 16 AWG."""
        assert cmil(10, 21, 1.2) == near(1881, 0.5)
        assert drop.thinnest(10, 21 * FOOT, 1.2, "abyc", GAUGES) == awg(16)

    @pytest.mark.parametrize("amps, printed", [
        (5, "18 16 14 12 12 10 10 10 8 8 8 6"),  # vd3
        (10, "14 12 10 10 10 8 6 6 6 6 4 4"),  # vd4
    ])
    def test_vd3_vd4_table_ix(self, amps, printed):
        """ABYC E-11 Table IX, 12 V, 3 %, at 10 15 20 25 30 40 50 60 70 80 90 100 ft. Read."""
        feet = (10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100)
        for length, gauge in zip(feet, map(int, printed.split())):
            assert drop.thinnest(amps, length * FOOT, 0.36, "abyc", GAUGES) == awg(gauge), length

    def test_table_ix_contradicts_itself(self):
        """10 A x 90 ft and 15 A x 60 ft ask for one section; the table prints 4 and 6 AWG, the formula says 4."""
        assert cmil(10, 90, 0.36) == near(cmil(15, 60, 0.36), 1e-9)
        assert drop.thinnest(15, 60 * FOOT, 0.36, "abyc", GAUGES) == awg(4)

    def test_vd5_metric(self):
        """3 A through 1.5 mm², 3 + 8 + 1 m one way, 0.0177 ohm mm²/m: 0.8496 V. Read."""
        parts = [2 * length * 3 * 0.0177 / area(mm2(1.5)) for length in (3, 8, 1)]
        assert parts == [near(0.2124, 1e-4), near(0.5664, 1e-4), near(0.0708, 1e-4)]
        ours = [3 * resistance(mm2(1.5), 2 * length, 25.0, "solid") for length in (3, 8, 1)]
        assert sum(ours) == pytest.approx(0.8496, rel=0.01)  # copper of 100 % IACS at 25 °C is 0.01758

    def test_vd6_metric(self):
        """100 A, 35 mm² class 5, 16 m: 0.886 V. Read 0.88 V."""
        assert 100 * resistance(mm2(35), 16) == near(0.886, 1e-3)
        assert 100 * resistance(mm2(35), 16) == near(0.88, 0.01)

    def test_vd7_vd8_iso_10133(self):
        """E = 0.0164 I L / S at 3 % of 12 V: 16 mm² 4 m 87.8 A, 120 mm² 50 m 52.7 A. Read 88 and 53."""
        assert 0.36 / drop.drop(mm2(16), 1.0, 4, "iso") == near(87.8, 0.05)
        assert 0.36 / drop.drop(mm2(120), 1.0, 50, "iso") == near(52.7, 0.05)


class TestAmpacity:
    def test_am1(self):
        """12 AWG, 90 °C, at 55 °C: 30 x 0.76 = 22.8 A. Read question, computed."""
        assert ampacity(awg(12), "nec", 90, ambient=55, terminations=90).amps == near(22.8, 0.01)

    def test_am2(self):
        """10 AWG, 105 °C, engine space, 7 to 24 together: 25.5 A. Read cell."""
        found = ampacity(awg(10), "abyc", engine_space=True, bundle=12, bundle_below_50=True)
        assert found.amps == near(25.5, 0.01)


class TestDevices:
    def test_oc1(self):
        """NEC: 2 AWG at 75 °C, 115 A: 125 A allowed. Read."""
        assert largest_device(ampacity(awg(2), "nec", circuit=125).amps, "nec", volts=48, size=awg(2)) == 125

    def test_oc2(self):
        """33 CFR below 50 V: 10 AWG at 105 °C, 60 A: 90 A. Computed from the rule."""
        assert largest_device(ampacity(awg(10), "cfr").amps, "cfr", volts=12) == 90

    def test_oc3(self):
        """NEC 240.4(D): 10 AWG, 35 A at 75 °C: 30 A. Read."""
        assert largest_device(ampacity(awg(10), "nec", terminations=75).amps, "nec", volts=12, size=awg(10)) == 30


class TestShortCircuit:
    def test_ic1(self):
        """Six batteries, two in series, three in parallel, 2400 A each: 7200 A. Read."""
        assert fault.bank(2400, series=2, parallel=3) == 7200

    def test_ic2(self):
        """240 V, 110 cells of 0.5 mohm: 4.36 kA, four in parallel 17.5 kA. Read 4.37."""
        one = fault.fault(240, fault.cells_resistance(110, 0.5e-3)).amps
        assert one == near(4364, 1)
        assert fault.bank(one, parallel=4) == near(17500, 50)

    def test_ic3(self):
        """Lead: ten times the capacity, hardly above twenty: 500 Ah, 5 kA, below 10 kA. Read."""
        assert fault.estimated("flooded", 500) == 5000
        assert fault.estimated("flooded", 500, most=True) == 10000

    def test_ic4(self):
        """Four lithium cells of 0.75 mohm with three links of 0.25 mohm, 14 V: 3733 A. Read."""
        assert fault.fault(14, fault.cells_resistance(4, 0.75e-3, 0.25e-3)).amps == near(3733, 1)

    def test_ic5(self):
        """13.6 V: 1 mohm bank, 0.1 mohm, 2 x 0.5 m 70 mm²; then 2 x 3 m of 35 mm². Computed."""
        assert fault.largest(13.6, 1e-3) == near(13600, 0.1)
        assert fault.largest(13.6, 1e-3, [(mm2(70), 1.0)], 0.1e-3) == near(9912.5, 0.1)
        assert fault.largest(13.6, 1e-3, [(mm2(70), 1.0), (mm2(35), 6.0)], 0.1e-3) == near(2896.1, 0.1)

    def test_ic6(self):
        """IEC 61660-1, formula from memory: 48 V, 8 mohm, 2.5 mohm: 50.4 V, 5195.9 A, 4560.0 A. Computed."""
        found = fault.battery_iec61660(48, 8e-3, 2.5e-3)
        assert found.volts == near(50.4, 1e-9)
        assert found.peak == near(5195.9, 0.1)
        assert found.steady == near(4560.0, 0.1)

    def test_ic7(self):
        """13.6 V, 1.372 mohm, 2 uH: tau 1.4577 ms, 6265.9 A then. Computed, and by transient simulation 6265.919."""
        found = fault.fault(13.6, 1.372e-3, 2e-6)
        assert found.tau == pytest.approx(1.4577e-3, rel=1e-4)
        assert found.at(found.tau) == pytest.approx(6265.9, rel=1e-4)
        assert found.amps == near(9912.5, 0.1)


class TestThermal:
    """Adiabatic equation; th1 to th3 computed, th4 and th5 read and computed."""

    @pytest.mark.parametrize("section, k, amps, seconds", [
        (35, 115, 3000, 1.800), (16, 115, 3000, 0.3762), (50, 143, 10000, 0.5112),
    ])
    def test_th1_th2_th3(self, section, k, amps, seconds):
        assert adiabatic.longest(section, amps, k) == near(seconds, 1e-3)
        assert adiabatic.k(70 if k == 115 else 90, kind="pvc" if k == 115 else "xlpe") == k

    def test_th4(self):
        assert adiabatic.thinnest(12000, 0.02, 143) == near(11.87, 0.01)

    def test_th5_iec_60949(self):
        """95 mm², 90 to 250 °C, 1 s. Read 13.6 kA, computed 13573 A with K 225.669; 226 is 0.15 % above."""
        k = adiabatic.k_between(90, 250)
        assert 95 * k == pytest.approx(13573, rel=2e-3)
        assert round(95 * k, -2) == 13600


class TestSolar:
    @pytest.mark.parametrize("volts, drift, cell, expected", [
        (45.8, -0.13, 0, 49.05), (35.4, -0.16, 55, 30.6), (36.4, -0.17, 70, 28.75),  # pv1, pv2, pv3: read
    ])
    def test_pv1_pv2_pv3(self, volts, drift, cell, expected):
        assert solar.at_temperature(volts, cell, drift=drift) == near(expected, 5e-3)

    @pytest.mark.parametrize("volts, share, cell, expected", [
        (45.0, -0.28, 3, 47.77), (49.0, -0.24, -7.2, 52.79), (44.0, -0.30, -10, 48.62),  # pv4, pv5, pv6: read
    ])
    def test_pv4_pv5_pv6(self, volts, share, cell, expected):
        assert solar.coldest_voltage(volts, 1, cell, share=share) == near(expected, 6e-3)

    def test_pv7(self):
        """Isc 9.5 A, series fuse 20 A: 14.84 A, so 15 A. Read."""
        assert solar.device_current(9.5) == near(14.84, 5e-3)
        assert next_rating(solar.device_current(9.5)) == 15 <= 20

    def test_pv8(self):
        """Two strings of 8.95 A: 22.375 A, 27.97 A, so 30 A. Read."""
        assert solar.largest_current(8.95, 2) == near(22.375, 1e-3)
        assert solar.device_current(8.95, 2) == near(27.97, 1e-2)
        assert next_rating(solar.device_current(8.95, 2)) == 30

    @pytest.mark.parametrize("cell, diode, linear", [(-20, 44.674, 44.364), (-40, 46.982, 46.571)])  # computed
    def test_pv9_pv10(self, cell, diode, linear):
        """39.4 V, -0.11032 V/K against the single-diode model."""
        ours = solar.coldest_voltage(39.4, 1, cell, drift=-0.11032)
        assert ours == near(linear, 2e-3)
        assert ours == pytest.approx(diode, rel=0.01)

    def test_pv10_nec_table(self):
        assert solar.coldest_voltage(39.4, 1, -40) == near(49.25, 2e-3)


class TestPeukert:
    def test_pk1_pk2(self):
        """100 Ah: n 1.25 at 25 A 66.9 %, n 1.3 at 100 A 40.7 %. Read 67 and 41."""
        assert battery.delivered(100, 25, 1.25) == near(66.9, 0.05)
        assert battery.delivered(100, 100, 1.3) == near(40.7, 0.05)

    def test_pk3_pk4(self):
        """225 Ah, 447 min at 25 A: 1.24; 180 Ah, 375 min: 1.14. Read."""
        assert battery.exponent_from_reserve(225, 447) == near(1.237, 1e-3)
        assert battery.exponent_from_reserve(180, 375) == near(1.139, 1e-3)


class TestFlow:
    """lf1 and lf2 against their oracles: test_network_scipy and test_network_ngspice."""

    def one_branch(self, watts):
        return solve(Network((Branch("wire", "s", "x", 0.1 - 1e-9),), (Source("bank", "s", "0", 12.8, 1e-9),),
                             (Load("load", "x", "0", "power", watts),)))

    def test_lf1(self):
        """12.8 V, 0.1 ohm, 100 W: 11.964171 V, 8.358289 A. Closed form."""
        found = self.one_branch(100)
        assert found.volts["x"] == near(11.964171, 1e-6)
        assert found.amps["load"] == near(8.358289, 1e-6)

    def test_lf2(self):
        """Three branches: the bank gives 97.835942 A. Computed by three programs."""
        pairs = (("1", 39.9e-3), ("2", 14.85e-3), ("3", 0.554e-3))
        wires = [Branch("main", "b", "bar", 0.2e-3 + 0.554e-3), Branch("back", "rbar", "0", 0.554e-3)]
        for n, ohms in pairs:
            wires += [Branch(f"f{n}", "bar", f"l{n}", ohms), Branch(f"r{n}", f"r{n}", "rbar", ohms)]
        loads = (Load("lamp", "l1", "r1", "power", 60), Load("heater", "l2", "r2", "resistance", 4),
                 Load("inverter", "l3", "r3", "power", 1111.11))
        found = solve(Network(tuple(wires), (Source("bank", "b", "0", 12.8, 2e-3),), loads))
        assert found.amps["bank"] == near(97.835942, 1e-5)
        for a, b, expected in (("bar", "rbar", 12.476359), ("l1", "r1", 12.080001), ("l2", "r2", 12.384405),
                               ("l3", "r3", 12.376890)):
            assert found.volts[a] - found.volts[b] == near(expected, 1e-5)

    def test_lf3(self):
        """500 W has no solution: at most E² / 4R = 409.6 W. Computed."""
        found = self.one_branch(500)
        assert found == Collapse("load", "wire", near(409.6 / 500, 1e-4))


class TestEnergyAndUnits:
    def test_eb1(self):
        """60 W for 5 h through an inverter of 0.9: 333.3 Wh out of the battery. Read formula; here by the flow."""
        watts = 60 / 0.9
        found = solve(Network((Branch("wire", "s", "x", 1e-6),), (Source("bank", "s", "0", 24, 1e-6),),
                              (Load("inverter", "x", "0", "power", watts),)))
        assert found.amps["bank"] * 24 * 5 == near(333.3, 0.1)

    def test_un1(self):
        """1 circular mil is 5.0670748e-4 mm². Unit formula."""
        assert KCMIL / 1000 == near(5.0670748e-4, 1e-11)

    def test_un2(self):
        """10.75 ohm cmil/ft is 0.017871 ohm mm²/m, copper of 100 % IACS at 29.3 °C. Computed."""
        si = 10.75 * KCMIL / 1000 / FOOT
        assert si == near(0.017871, 1e-6)
        assert RHO_20 * heating(29.3) == near(si, 2e-6)

    def test_un3(self):
        """At 75 °C solid copper is 12.61 ohm cmil/ft, with 2 % lay 12.87. Computed."""
        solid = RHO_20 * heating(75) / (KCMIL / 1000) * FOOT
        assert solid == near(12.61, 0.01)
        assert 1.02 * solid == near(12.87, 0.01)
        assert math.isclose(resistance(awg(-3), 304.8, 75), 0.0608, rel_tol=1e-12)
