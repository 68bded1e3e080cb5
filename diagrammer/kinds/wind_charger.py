"""A charge controller for wind or hydro."""

from diagrammer.kinds.direct import COMMON, joined, switched
from diagrammer.kinds.kind import CURRENT, EARTH, VOLTAGE, Field, Gives, Kind, ac, dc, word


def three(values) -> bool:
    return values.get("phases") == "3"


def ports(values):
    return dc("main"), ac("in", "3") if three(values) else dc("in"), dc("dump"), EARTH


def inside(values):
    return (() if three(values) else joined(values, "in")) + switched(values, "dump")


KIND = Kind(
    name="wind charger", letter="T", sort="end", symbol="wind-charger",
    says="Charges a bank from a wind or water turbine and turns what is too much into a dump load.",
    fields=(
        Field("output", CURRENT, required=True, above=0, says="highest charge current"),
        Field("open voltage", VOLTAGE, above=0, says="highest voltage of an unloaded turbine it takes"),
        Field("phases", word("3"), says="three wild ac phases come in; without it dc"),
        COMMON,
    ),
    ports=ports, inside=inside,
    gives=lambda values: (Gives("main", values.get("output") or 0.0, "charger"),),
    supplies=lambda values: (("in", "main"), ("main", "dump")),
)
