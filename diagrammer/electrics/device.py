"""What an overcurrent device of a body is usually rated for where its data sheet is not at hand."""

from __future__ import annotations

import math

from diagrammer.frozen import frozen
from diagrammer.tables.load import load

FORMS = {"curve-b": "miniature", "curve-c": "miniature", "curve-d": "miniature", "ac-only": "miniature"}


@frozen
class Rated:
    """Voltage [V] and the fault current [A] broken at it; where the numbers come from."""

    volts: float
    breaking: float
    standard: str
    provenance: str


def usual(body: str, rating: float, form: str = "", *, ac: bool = False) -> tuple[Rated, ...]:
    """What devices of `body` for `rating` [A] are usually made for, by rising voltage; () if unknown.

    The same body may break less at a higher voltage. `form`: one of its forms ("58 V", "thermal", "curve-b", ...).
    """
    form = FORMS.get(form, form)
    found = []
    for row in load("device_families"):
        wanted = row["form"] == form if form else row["usual"] == "yes"
        fits = float(row["least"]) <= rating <= float(row["most"])
        if row["body"] == body and row["current"] == ("ac" if ac else "dc") and wanted and fits:
            breaking = max(float(row["breaking"]), rating * float(row["breaking x In"] or 0))
            found.append(Rated(float(row["volts"]), breaking, row["standard"], row["provenance"]))
    return tuple(sorted(found, key=lambda r: r.volts))


def breaking(body: str, rating: float, volts: float, form: str = "", *, ac: bool = False) -> Rated | None:
    """What such a device usually breaks in a system of at most `volts` [V]; None where it is not made for that."""
    return next((r for r in usual(body, rating, form, ac=ac) if r.volts >= volts), None)


def opens_within(body: str, times: float, form: str = "") -> float | None:
    """How long [s] such a device may take at most at `times` its rating; inf where it need not open at all, None where
    nothing is known of the body."""
    rows = [row for row in load("device_times") if row["body"] == body and row["form"] == form]
    if not rows:
        return None
    reached = [row for row in rows if float(row["times"]) <= times * (1 + 1e-9)]
    trips = [float(row["seconds"]) for row in reached if row["beyond"] == "time"]
    heating = [row for row in reached if row["beyond"] == "let-through"]
    heats = [float(row["seconds"]) * (float(row["times"]) / times) ** 2 for row in heating]
    return min(trips or heats, default=math.inf)
