"""The current a conductor may carry for good, by the tables of a practice."""

from __future__ import annotations

import math
from functools import cache

from diagrammer.electrics.conductor import area, parse_awg
from diagrammer.frozen import frozen
from diagrammer.quantity import Size
from diagrammer.tables.load import load, provenance

INSULATION = {"abyc": 105.0, "cfr": 105.0, "nec": 75.0, "iso": 70.0}  # [°C] where nothing is said
SOURCE = {"abyc": "33 CFR 183.425 Table 5", "cfr": "33 CFR 183.425 Table 5", "nec": "NEC Table 310.16",
          "iso": "ISO 13297 Table A.1", "iec": "IEC 60364-5-52 method C"}
TABLE = {"abyc": "ampacity_cfr", "cfr": "ampacity_cfr", "nec": "ampacity_nec", "iso": "ampacity_iso",
         "iec": "ampacity_iec"}
ENGINE_SPACE = 50.0  # [°C] what the factors for engine spaces stand for (33 CFR 183.425 Table 5 note 1)
LOW_VOLTAGE = 50.0  # [V] from here on the cfr factors for bundles bind (33 CFR 183.435(b))


class OutsideTable(ValueError):
    """The table has no number for this conductor in this place; the message says why."""


@frozen
class Ampacity:
    """amps [A] after all factors, the table and column they come from, and what was done to them.

    provenance: of the table's cell (tables/load.py); "memory" asks to be verified against the standard.
    terminals: temperature [°C] of the terminals at its ends, where they hold it down and not its insulation.
    """

    amps: float
    table: str
    note: str = ""
    provenance: str = "read"
    terminals: float | None = None


@cache
def ampacity(
    size: Size, practice: str, insulation: float | None = None, *, ambient: float = 30.0, bundle: int = 1,
    engine_space: bool = False, ac: bool = False, parallel: int = 1, volts: float = 0.0,
    bundle_below_50: bool = False, terminations: float | None = None, circuit: float | None = None,
    material: str = "copper",
) -> Ampacity:
    """The current that `parallel` equal conductors of `size` may carry together.

    Parameters
    ----------
    practice : "abyc" or "cfr" (33 CFR 183.425 Table 5), "nec" (Table 310.16), "iso" (ISO 13297 Table A.1; with `ac`
        IEC 60364-5-52 method C, two loaded conductors).
    insulation : temperature rating [°C], between two columns the lower counts; None: the practice's usual one.
    ambient : temperature around the conductor [°C].
    bundle : conductors that lie together and carry current.
    engine_space : it runs through one, 50 °C.
    volts : of the circuit [V]; below 50 V the factors for bundles bind under abyc and cfr with `bundle_below_50` only.
    terminations : temperature that the terminals at both ends are marked for [°C]; None: what NEC 110.14(C) takes.
    circuit : rating of the circuit's own overcurrent device [A]; None: not known. Both count under nec only.
    material : "copper" or "tinned", which counts as copper, or "aluminium", which the table of nec alone has.

    A size that a table does not list counts as the largest listed one whose area is not above the conductor's.

    Raises
    ------
    OutsideTable
        Smaller than the table's smallest size, larger than the largest of its own system, insulation below the lowest
        column, ambient too hot for the insulation, no factor for that insulation in engine spaces, or aluminium where
        the table is for copper only.
    ValueError
        Unknown practice.
    """
    if practice not in INSULATION:
        raise ValueError(f"unknown practice: {practice!r}")
    body = "iec" if practice == "iso" and ac else practice
    if material == "aluminium" and body != "nec":
        raise OutsideTable(f"{SOURCE[body]} is for copper only, this is aluminium")
    rated = INSULATION[practice] if insulation is None else insulation
    column = find_column(body, rated)
    label, amps, taken, origin = find_row(body, column, size, material)
    hot = max(ambient, ENGINE_SPACE) if engine_space and body in ("nec", "iec") else ambient
    factors = [
        (f"{hot:g} °C around it", ambient_factor(body, rated, hot)),
        ("engine space", engine_factor(body, rated) if engine_space else 1.0),
    ]
    if body in ("abyc", "cfr", "iso") and engine_space:  # both stand for the heat around it: the worse one counts
        factors = [min(factors, key=lambda f: f[1])]
    if body in ("nec", "iec", "iso") or ac or volts >= LOW_VOLTAGE or bundle_below_50:
        factors.append((f"{bundle} together", bundle_factor(body, bundle)))
    notes = [taken] if taken else []
    notes += [f"{why}: x {factor:.3g}" for why, factor in factors if factor != 1]
    notes += [f"{parallel} parallel"] if parallel > 1 else []
    total = amps * math.prod(factor for _, factor in factors) * parallel
    found = Ampacity(round(total, 9), cell_name(body, column, label, material), "; ".join(notes), origin)
    return at_terminals(found, size, material, parallel, terminations, circuit) if body == "nec" else found


def cell_name(body: str, column: float, label: str, material: str) -> str:
    return f"{SOURCE[body]}, {column:g} °C, {'aluminium, ' if material == 'aluminium' else ''}{label}"


def at_terminals(
    found: Ampacity, size: Size, material: str, parallel: int, terminations: float | None, circuit: float | None
) -> Ampacity:
    """What NEC 110.14(C) leaves of an ampacity: at most the cell of the column for its terminals, without factors.

    A size that has no cell there (18 and 16 AWG) keeps its own.
    """
    degrees = terminals(size, circuit) if terminations is None else terminations
    column = find_column("nec", degrees)
    try:
        label, amps, taken, origin = find_row("nec", column, size, material)
    except OutsideTable:
        return found
    if amps * parallel >= found.amps:
        return found
    notes = [taken] if taken else []
    notes += [f"terminals of {degrees:g} °C: NEC 110.14(C)"] + ([f"{parallel} parallel"] if parallel > 1 else [])
    return Ampacity(amps * parallel, cell_name("nec", column, label, material), "; ".join(notes), origin, degrees)


def terminals(size: Size, circuit: float | None = None) -> float:
    """What the terminals of a conductor count as [°C] where they are not marked: by the rating of its circuit [A], or
    where that is not known by its size (NEC 110.14(C)(1))."""
    for row in load("terminals_nec"):
        if circuit is None and row["awg"] and area(size) <= area(parse_awg(row["awg"])) * (1 + 1e-9):
            return float(row["temperature"])
        if circuit is not None and row["amps"] and circuit <= float(row["amps"]):
            return float(row["temperature"])
    return float(load("terminals_nec")[-1]["temperature"])


def find_column(body: str, rated: float) -> float:
    """The temperature of the column that counts for insulation of `rated` [°C]."""
    columns = sorted({float(c.split()[0]) for c in load(TABLE[body])[0] if c[0].isdigit()})
    lower = [c for c in columns if c <= rated]
    if not lower:
        raise OutsideTable(f"{SOURCE[body]} begins at {columns[0]:g} °C insulation, this is {rated:g} °C")
    return lower[-1]


def find_row(body: str, column: float, size: Size, material: str = "copper") -> tuple[str, float, str, str]:
    """Label of the size that counts, its amps, a remark where it is not the conductor's own, the cell's provenance."""
    cell = f"{column:g}{' C' if body == 'iec' else ' aluminium' if material == 'aluminium' else ''}"
    rows = [(size_of(row), row) for row in load(TABLE[body]) if row[cell]]
    section = area(size)
    fitting = [row for row in rows if area(row[0]) <= section * (1 + 1e-9)]
    if not fitting:
        raise OutsideTable(f"{SOURCE[body]}, {column:g} °C, begins at {rows[0][0].label}, this is {size.label}")
    listed, row = fitting[-1]
    metric = ("mm²", "mm2")
    same_system = (size.system in metric) == (listed.system in metric)
    exact = abs(area(listed) - section) <= 1e-9 * section
    if listed == rows[-1][0] and same_system and not exact:
        raise OutsideTable(f"{SOURCE[body]} ends at {listed.label}, this is {size.label}")
    note = "" if exact else f"{size.label} counts as {listed.label}"
    return listed.label, float(row[cell]), note, provenance(TABLE[body], row, cell)


def size_of(row: dict[str, str]) -> Size:
    return parse_awg(row["awg"]) if "awg" in row else Size("mm²", float(row["mm2"]))


def ambient_factor(body: str, rated: float, ambient: float) -> float:
    """Factor for the temperature around the conductor [°C]: tabulated for nec and iec, else the formula behind them.

    The formula, sqrt((T - ambient) / (T - 30)), is that of NEC 310.15(B); it is never used to raise an ampacity.
    """
    if body in ("nec", "iec"):
        return tabulated_ambient(body, find_column(body, rated), ambient)
    if ambient <= 30:
        return 1.0
    if ambient >= rated:
        raise OutsideTable(f"{ambient:g} °C around a conductor of {rated:g} °C insulation")
    return math.sqrt((rated - ambient) / (rated - 30))


def tabulated_ambient(body: str, column: float, ambient: float) -> float:
    key, table = ("upto", "ambient_nec") if body == "nec" else ("ambient", "ambient_iec")
    for row in load(table):
        if ambient <= float(row[key]) and row[f"{column:g}"]:
            return float(row[f"{column:g}"])
    raise OutsideTable(f"{ambient:g} °C is too hot around {column:g} °C insulation ({SOURCE[body]})")


def engine_factor(body: str, rated: float) -> float:
    """Factor for a conductor in an engine space; nec and iec have none and take 50 °C around it instead."""
    if body in ("nec", "iec"):
        return 1.0
    name = "iso" if body == "iso" else "cfr"
    lower = [row for row in load("engine_space") if float(row["insulation"]) <= rated and row[name]]
    if not lower:
        raise OutsideTable(f"insulation of {rated:g} °C has no place in an engine space")
    return float(lower[-1][name])


def bundle_factor(body: str, conductors: int) -> float:
    """Factor for conductors that lie together; iec counts circuits, two conductors each."""
    if body == "iec":
        circuits = math.ceil(conductors / 2)  # between the numbers in the table the next larger one counts
        rows = [row for row in load("bundles") if row["body"] == "iec"]
        return float(next((r for r in rows if int(r["from"]) >= circuits), rows[-1])["factor"])
    name = "cfr" if body in ("abyc", "cfr") else body
    rows = [row for row in load("bundles") if row["body"] == name and int(row["from"]) <= conductors]
    return float(rows[-1]["factor"]) if rows else 1.0
