"""Solar strings: voltages in the cold and the heat, currents, and what a charge controller makes of them."""

from __future__ import annotations

import math

from diagrammer.electrics.ampacity import OutsideTable
from diagrammer.frozen import frozen
from diagrammer.tables.load import load

STANDARD = 25.0  # [°C] of the cell at which modules are rated (IEC 61215, standard test conditions)
FULL_SUN = 1000.0  # [W/m²] the same
EFFICIENCY = 0.96  # of a tracking controller (common practice)
HEADROOM = 1.0  # [V] above the bank's voltage that a tracking controller needs (common practice)


def at_temperature(volts: float, cell: float, share: float | None = None, drift: float | None = None) -> float:
    """A module's voltage [V] at `cell` [°C] from that at 25 °C: linear, by `share` [%/°C] or `drift` [V/°C].

    Raises
    ------
    ValueError
        Not exactly one of `share` and `drift`.
    """
    if (share is None) == (drift is None):
        raise ValueError("the voltage's drift is given as a share or in volts, one of the two")
    return volts + (cell - STANDARD) * (drift if drift is not None else volts * share / 100)


def cold_factor(coldest: float) -> float:
    """NEC Table 690.7(A): factor on the open-circuit voltage at the lowest temperature expected [°C].

    Raises
    ------
    OutsideTable
        Colder than -40 °C.
    """
    if coldest >= STANDARD:
        return 1.0
    for row in load("pv_cold_nec"):
        if coldest >= float(row["downto"]):
            return float(row["factor"])
    raise OutsideTable(f"NEC Table 690.7(A) ends at -40 °C, this is {coldest:g} °C")


def coldest_voltage(
    voc: float, series: int, coldest: float, share: float | None = None, drift: float | None = None
) -> float:
    """Largest open-circuit voltage [V] of a string of `series` modules of `voc` [V].

    By the module's own coefficient where it is known (NEC 690.7(A)(1)), else by the NEC table.
    """
    if share is None and drift is None:
        return voc * series * cold_factor(coldest)
    return series * at_temperature(voc, min(coldest, STANDARD), share, drift)


def hottest_voltage(
    vmp: float, series: int, hottest: float, share: float | None = None, drift: float | None = None,
    rise: float | None = None,
) -> float:
    """Maximum-power voltage [V] of a string in full sun at `hottest` [°C] in the air, the cell `rise` [K] above it."""
    warm = hottest + (factor("rise") if rise is None else rise)
    return series * at_temperature(vmp, warm, share, drift)


def factor(name: str) -> float:
    """One of the factors of the table pv_factors."""
    return next(float(row["value"]) for row in load("pv_factors") if row["name"] == name)


def largest_current(isc: float, parallel: int = 1) -> float:
    """Maximum current [A] of an array: 1.25 times the short-circuit current (NEC 690.8(A)(1))."""
    return factor("irradiance") * isc * parallel


def device_current(isc: float, parallel: int = 1) -> float:
    """Least rating [A] of conductors and devices of an array: 1.25 times the maximum current (NEC 690.8(B))."""
    return factor("continuous") * largest_current(isc, parallel)


def needs_string_fuses(isc: float, parallel: int, max_series_fuse: float | None = None) -> bool:
    """Whether the other strings can drive more into one than its modules bear.

    Up to two strings: never (NEC 690.9(A)). More: unless the modules' series-fuse rating [A] covers 1.25 times the
    short-circuit current of all the others (IEC 62548 6.3, from memory).
    """
    if parallel <= factor("unfused"):
        return False
    return max_series_fuse is None or largest_current(isc, parallel - 1) > max_series_fuse


@frozen
class Array:
    """A solar array at one irradiance and temperature: open and maximum-power voltage [V], currents [A]."""

    voc: float
    vmp: float
    isc: float
    imp: float

    @property
    def power(self) -> float:
        return self.vmp * self.imp


def array(
    voc: float, vmp: float, isc: float, imp: float, series: int = 1, parallel: int = 1, *, cell: float = STANDARD,
    irradiance: float = FULL_SUN, voc_share: float = 0.0, vmp_share: float = 0.0,
) -> Array:
    """The array at `cell` [°C] and `irradiance` [W/m²]: currents in proportion, voltages by shares [%/°C]."""
    sun = irradiance / FULL_SUN
    return Array(
        series * at_temperature(voc, cell, voc_share), series * at_temperature(vmp, cell, vmp_share),
        parallel * isc * sun, parallel * imp * sun,
    )


@frozen
class Charging:
    """What a charge controller passes on: `amps` [A] into the bank, and how much more the array could give [A]."""

    amps: float
    clipped: float = 0.0


def mppt(array: Array, bank: float, output: float, efficiency: float = EFFICIENCY,
         headroom: float = HEADROOM) -> Charging:
    """A tracking controller of `output` [A] into a bank at `bank` [V]: the array's power less the loss.

    It gives nothing where the maximum-power voltage is not `headroom` [V] above the bank (common practice).
    """
    if array.vmp < bank + headroom:
        return Charging(0.0)
    wanted = array.power * efficiency / bank
    return Charging(min(wanted, output), max(0.0, wanted - output))


def pwm(array: Array, bank: float, output: float) -> Charging:
    """A switching controller: the array is pulled down to the bank's voltage and gives its current there."""
    amps = current_at(array, bank)
    return Charging(min(amps, output), max(0.0, amps - output))


def current_at(array: Array, volts: float) -> float:
    """Current [A] of an array held at `volts` [V]: I = Isc (1 - C1 (exp(V / (C2 Voc)) - 1)).

    The explicit curve through short circuit, maximum power and, nearly, open circuit; up to maximum power within 2 % of
    a single-diode model, within 10 % above it:
    C2 = (Vmp / Voc - 1) / ln(1 - Imp / Isc), C1 = (1 - Imp / Isc) exp(-Vmp / (C2 Voc)) (from memory).
    """
    if volts >= array.voc or array.isc <= 0:
        return 0.0
    short = 1 - min(array.imp / array.isc, 0.999)
    c2 = (array.vmp / array.voc - 1) / math.log(short)
    c1 = short * math.exp(-array.vmp / (c2 * array.voc))
    return max(0.0, array.isc * (1 - c1 * math.expm1(max(volts, 0.0) / (c2 * array.voc))))
