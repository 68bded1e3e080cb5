"""Prospective short-circuit currents of dc systems, and of ac from one source through its conductors."""

from __future__ import annotations

import math
from collections.abc import Iterable

from diagrammer.electrics.conductor import resistance
from diagrammer.frozen import frozen
from diagrammer.quantity import Size
from diagrammer.tables.load import load

SAME_SUPPLY = 0.1  # nominal voltages within a tenth are one supply: 230 and 240 V, 120 and 127 V (IEC 60038)


@frozen
class Fault:
    """A short circuit behind one resistance: `amps` [A] in the end, `tau` [s] the time constant of its rise."""

    amps: float
    tau: float = 0.0

    def at(self, seconds: float) -> float:
        """Current [A] `seconds` after it began: I (1 - exp(-t / tau))."""
        return self.amps if self.tau == 0 else self.amps * -math.expm1(-seconds / self.tau)


def fault(volts: float, ohms: float, henries: float = 0.0) -> Fault:
    """The short circuit of a source of `volts` [V] behind `ohms` [Ω] and `henries` [H].

    Raises
    ------
    ValueError
        `ohms` is not above zero.
    """
    if ohms <= 0:
        raise ValueError("a short circuit behind no resistance has no current")
    return Fault(volts / ohms, henries / ohms)


def largest(volts: float, source: float, runs: Iterable[tuple[Size, float]] = (), other: float = 0.0) -> float:
    """Largest prospective current [A]: `volts` at full charge, conductors cold (20 °C).

    `source` and `other` are resistances of the source and of devices on the way [Ω], `runs` the conductors there and
    back as (size, length [m]).
    """
    return fault(volts, source + other + sum(resistance(size, length) for size, length in runs)).amps


def smallest(
    volts: float, source: float, runs: Iterable[tuple[Size, float]] = (), other: float = 0.0, hot: float = 70.0
) -> float:
    """Smallest prospective current [A]: `volts` at the end of discharge, conductors at `hot` [°C]; as largest()."""
    return fault(volts, source + other + sum(resistance(size, length, hot) for size, length in runs)).amps


def source_resistance(volts: float, amps: float) -> float:
    """Resistance [Ω] of a source of `volts` [V] whose short-circuit current is stated as `amps` [A]."""
    return volts / amps


def bank(amps: float, series: int = 1, parallel: int = 1) -> float:
    """Short-circuit current [A] of a bank of batteries of `amps` each: those in parallel add, in series they do not."""
    if series < 1 or parallel < 1:
        raise ValueError("a bank has at least one battery in series and in parallel")
    return amps * parallel


def cells_resistance(cells: int, cell: float, link: float = 0.0) -> float:
    """Resistance [Ω] of `cells` in series, each of `cell` [Ω], with a `link` [Ω] between every two."""
    return cells * cell + (cells - 1) * link


def estimated(chemistry: str, capacity: float, most: bool = False) -> float:
    """Short-circuit current [A] of a battery of `capacity` [Ah] where none is stated: a rule of thumb by chemistry.

    `most`: what it will hardly exceed (lead-acid: 20 times the capacity, common practice).
    """
    row = next((r for r in load("batteries") if r["chemistry"] == chemistry), None)
    if row is None:
        raise ValueError(f"unknown chemistry: {chemistry!r}")
    return capacity * float(row["short circuit most"] if most and row["short circuit most"] else row["short circuit"])


def ac_largest(volts: float, amps: float, ohms: float) -> float:
    """Largest ac short-circuit current [A] behind `ohms` [Ω] of cold conductors, of a source of `volts` [V] that drives
    `amps` [A] at its terminals: its impedance taken as a reactance, so that the two add least."""
    return volts / math.hypot(volts / amps, ohms)


def ac_smallest(volts: float, amps: float, ohms: float) -> float:
    """Smallest ac short-circuit current [A] behind `ohms` [Ω] of hot conductors: the supply at the least of its voltage
    (IEC 60909-0, c min), its impedance taken as a resistance, so that the two add most."""
    return ac_usual("volts", "any", "x volts") * volts / (volts / amps + ohms)


def ac_usual(source: str, practice: str, unit: str) -> float | None:
    """What an ac source usually drives into a short circuit at its terminals, in `unit`; None where nothing is said."""
    return next((float(row["value"]) for row in load("ac_faults")
                 if row["source"] == source and row["practice"] in (practice, "any") and row["unit"] == unit), None)


def least_breaking_ac(volts: float, lines: int, amps: float, *, main: bool) -> float | None:
    """Least breaking capacity [A] of a breaker on shore power of `volts` [V] line to neutral, so many `lines` and a rating
    of `amps` [A], by ABYC E-11 Table V-B; None where the table ends."""
    for row in load("interrupting_abyc_ac"):
        same = abs(volts - float(row["volts"])) <= SAME_SUPPLY * float(row["volts"]) and lines == int(row["lines"])
        if same and amps <= float(row["amps"]):
            return float(row["main" if main else "branch"])
    return None


@frozen
class BatteryFault:
    """Peak and quasi steady-state short-circuit current of a stationary battery [A], and its open voltage [V]."""

    peak: float
    steady: float
    volts: float


def battery_iec61660(nominal: float, battery: float, conductors: float) -> BatteryFault:
    """Short circuit of a stationary battery by IEC 61660-1 clause 2.5 (formulas from memory).

    E = 1.05 U, R = 0.9 `battery` + `conductors` [Ω], peak E / R, steady state 0.95 E / (R + 0.1 `battery`).
    """
    volts, ohms = 1.05 * nominal, 0.9 * battery + conductors
    return BatteryFault(volts / ohms, 0.95 * volts / (ohms + 0.1 * battery), volts)


def least_breaking(volts: float, cranking: float, *, main: bool) -> float:
    """Least breaking capacity [A] of a breaker by ABYC E-11 Table V-A, from the cold cranking amperes of all batteries.

    Raises
    ------
    ValueError
        The table ends at 32 V.
    """
    rows = [r for r in load("interrupting_abyc") if volts <= float(r["volts"])]
    if not rows:
        raise ValueError(f"ABYC E-11 Table V-A ends at 32 V, this is {volts:g} V")
    rows = [r for r in rows if r["volts"] == rows[0]["volts"]]
    row = next(r for r in rows if not r["upto"] or cranking <= float(r["upto"]))
    return float(row["main" if main else "branch"])
