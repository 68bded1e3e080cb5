"""A pv array: modules alike, in series and parallel."""

from diagrammer.kinds.kind import (
    COUNT, CURRENT, EARTH, POWER, VOLTAGE, Claim, Field, Gives, Kind, dc, quantity,
)

DRIFT = quantity("drift", "voltage drift")
BRIGHT = 1.25  # short-circuit current in the brightest hours over the rated one: NEC 690.8(A)(1)


def in_series(values) -> int:
    return values.get("series") or 1


def in_parallel(values) -> int:
    return values.get("parallel") or 1


def claims(values):
    """From the voltage at full power to the open one, of the whole string."""
    voc = values.get("voc")
    if voc is None:
        return ()
    vmp = min(values.get("vmp") or voc, voc)
    return (Claim("main", in_series(values) * vmp, in_series(values) * voc, "source"),)


KIND = Kind(
    name="pv", letter="G", sort="point", symbol="pv",
    says="Photovoltaic modules alike, wired in series and parallel, in full sun.",
    fields=(
        Field("power", POWER, required=True, above=0, says="rated power of one module"),
        Field("voc", VOLTAGE, required=True, above=0, says="open-circuit voltage of one module at 25 °C"),
        Field("isc", CURRENT, required=True, above=0, says="short-circuit current of one module"),
        Field("vmp", VOLTAGE, above=0, says="voltage of one module at full power"),
        Field("imp", CURRENT, above=0, says="current of one module at full power"),
        Field("voc drift", DRIFT, says="change of the open-circuit voltage with temperature, negative"),
        Field("vmp drift", DRIFT, says="change of the voltage at full power with temperature, negative"),
        Field("series", COUNT, default=1, says="modules in a string"),
        Field("parallel", COUNT, default=1, says="strings side by side"),
        Field("string fuse", CURRENT, above=0, says="rating of the fuse in each string"),
        Field("max series fuse", CURRENT, above=0, says="largest string fuse its maker allows"),
    ),
    ports=lambda values: (dc("main"), EARTH),
    gives=lambda values: (Gives("main", BRIGHT * (values.get("isc") or 0.0) * in_parallel(values), "raw"),),
    claims=claims,
)
