"""Batteries by chemistry: voltage windows, usable energy, run time and charge time.

Handbook values (tables/batteries.csv): a battery's own data sheet goes before them.
"""

from __future__ import annotations

import math

from diagrammer.frozen import frozen
from diagrammer.tables.load import Row, load

RATE = 20.0  # [h] the discharge time to which a capacity is rated where nothing else is said


@frozen
class Window:
    """Voltages of a battery [V]: `least` and `most` bound what it may ever see; no equalising: None."""

    cells: int
    nominal: float
    least: float
    cutoff: float
    float: float
    absorption: float
    most: float
    equalise: float | None


def chemistry_of(name: str) -> Row:
    """The row of tables/batteries.csv.

    Raises
    ------
    ValueError
        Unknown chemistry.
    """
    for row in load("batteries"):
        if row["chemistry"] == name:
            return row
    raise ValueError(f"unknown chemistry: {name!r}")


def cells(chemistry: str, volts: float) -> int:
    """Cells in series of a battery of nominal `volts`: by steps of 12 V within 8 %, else by the cell's own voltage."""
    row = chemistry_of(chemistry)
    steps = round(volts / 12)
    if row["cells 12"] and steps and abs(volts / (12 * steps) - 1) <= 0.08:
        return steps * int(row["cells 12"])
    return max(1, round(volts / float(row["nominal"])))


def window(chemistry: str, volts: float, in_series: int | None = None) -> Window:
    """The voltage window of a battery of nominal `volts` [V], or of `in_series` cells."""
    row = chemistry_of(chemistry)
    count = in_series or cells(chemistry, volts)
    names = ("nominal", "least", "cutoff", "float", "absorption", "most", "equalise")
    return Window(count, *(round(count * float(row[n]), 6) if row[n] else None for n in names))


def compensated(volts: float, chemistry: str, in_series: int, temperature: float) -> float:
    """A charging voltage [V] at `temperature` [°C] from that at 25 °C."""
    return volts + float(chemistry_of(chemistry)["drift"]) * in_series * (temperature - 25)


def delivered(capacity: float, amps: float, exponent: float, rate: float = RATE) -> float:
    """Charge [Ah] that `amps` [A] take out of `capacity` [Ah over `rate` hours]: C (I_rate / I)^(n - 1), Peukert."""
    return capacity * (capacity / rate / amps) ** (exponent - 1)


def run_time(capacity: float, amps: float, exponent: float, rate: float = RATE) -> float:
    """Hours that `amps` [A] last: rate (C / (I rate))^n, Peukert."""
    return rate * (capacity / (amps * rate)) ** exponent


def exponent_from_reserve(capacity: float, minutes: float, amps: float = 25.0, rate: float = RATE) -> float:
    """Peukert's exponent from the capacity [Ah] at `rate` hours and the reserve `minutes` at `amps` [A].

    Raises
    ------
    ValueError
        The reserve contradicts the capacity: it would be the same current, or no exponent.
    """
    slow = capacity / rate
    if minutes <= 0 or slow == amps:
        raise ValueError("reserve minutes and capacity are one and the same point")
    return math.log(rate / (minutes / 60)) / math.log(amps / slow)


def cold_share(chemistry: str, temperature: float) -> float:
    """Share of the capacity that is left at `temperature` [°C], at most 1; between the rows linear."""
    lead = chemistry in ("flooded", "agm", "gel")
    chemistry_of(chemistry)
    column = "lead" if lead else "lithium"
    points = [(float(r["temperature"]), float(r[column])) for r in load("battery_cold") if r[column]]
    points = [(t, 1 / f if lead else f) for t, f in points]
    if temperature < points[0][0]:
        return points[0][1] if lead else 0.0
    for (t0, s0), (t1, s1) in zip(points, points[1:]):
        if temperature <= t1:
            return min(1.0, s0 + (s1 - s0) * (temperature - t0) / (t1 - t0))
    return 1.0


def usable(
    chemistry: str, capacity: float, amps: float | None = None, temperature: float = 25.0,
    exponent: float | None = None, depth: float | None = None, rate: float = RATE,
) -> float:
    """Charge [Ah] that may be taken at `amps` [A] and `temperature` [°C] down to the chemistry's `depth`.

    Faster than the rated discharge it is less (Peukert), slower it is not more. `exponent` and `depth` (0 ... 1) of the
    data sheet go before the table's.
    """
    row = chemistry_of(chemistry)
    n = float(row["peukert"]) if exponent is None else exponent
    share = 1.0 if amps is None or amps <= 0 else min(1.0, delivered(1.0, amps / capacity, n, rate))
    deep = float(row["depth"]) if depth is None else depth
    return capacity * share * cold_share(chemistry, temperature) * deep


def charge_time(chemistry: str, capacity: float, amps: float, start: float, end: float) -> float:
    """Hours to charge `capacity` [Ah] from `start` to `end` (shares of it, 0 ... below 1) with at most `amps` [A].

    The battery takes `amps` until its acceptance falls below that, then a current in proportion to the charge missing
    (for lead the ampere-hour law, table column `accepts`), so that the missing charge decays exponentially.

    Raises
    ------
    ValueError
        Not 0 <= start <= end < 1, or no current.
    """
    if not 0 <= start <= end < 1 or amps <= 0:
        raise ValueError("a charge goes from start to a later end below 1, with a current")
    row = chemistry_of(chemistry)
    accepts, efficiency = float(row["accepts"]), float(row["efficiency"])
    missing, left = (1 - start) * capacity, (1 - end) * capacity
    turn = max(min(missing, amps / accepts), left)  # [Ah] missing where the current begins to fall
    bulk = (missing - turn) / amps
    tail = math.log(turn / left) / accepts if turn > left else 0.0
    return (bulk + tail) / efficiency


def charge_limit(chemistry: str, capacity: float, most: bool = True) -> float:
    """Largest (or with `most` false the recommended) charging current [A] of a battery of `capacity` [Ah]."""
    return capacity * float(chemistry_of(chemistry)["charge most" if most else "charge"])


def discharge_limit(chemistry: str, capacity: float) -> float:
    """Continuous discharge current [A] that a battery of `capacity` [Ah] usually gives."""
    return capacity * float(chemistry_of(chemistry)["discharge"])
