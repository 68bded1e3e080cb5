"""A bank: batteries that work as one store of energy."""

from diagrammer.kinds.direct import claim
from diagrammer.kinds.kind import (
    COUNT, CURRENT, NODE, NUMBER, RESISTANCE, TEMPERATURE, UNLIMITED, VOLTAGE, YES_NO, Field, Gives, Kind, dc,
    quantity, word,
)

CHEMISTRIES = ("lifepo4", "flooded", "agm", "gel", "lithium")

FIELDS = (
    Field("chemistry", word(*CHEMISTRIES), required=True, says="what the cells are made of"),
    Field("voltage", VOLTAGE, required=True, least=1, most=1000, says="nominal voltage"),
    Field("capacity", quantity("charge", "energy"), required=True, above=0, says="rated capacity"),
    Field("cells", COUNT, says="cells in series"),
    Field("max voltage", VOLTAGE, least=1, says="highest voltage while charging"),
    Field("max charge", CURRENT, above=0, says="highest continuous charge current"),
    Field("max discharge", CURRENT, above=0, says="highest continuous discharge current"),
    Field("short circuit", CURRENT, above=0, says="prospective short-circuit current at the posts"),
    Field("internal resistance", RESISTANCE, above=0, says="resistance between the posts"),
    Field("peukert", NUMBER, least=1, most=2, says="exponent by which capacity shrinks with current"),
    Field("charge above", TEMPERATURE, says="lowest temperature at which it may be charged"),
    Field("cold cutoff", YES_NO, says="its electronics stop charging in the cold"),
    Field("duty", word("house", "starter"), default="house", says="what it is for"),
    Field("pair", NODE, says="where the returns of what hangs on it land"),
)


def kind(name: str, says: str) -> Kind:
    return Kind(
        name=name, letter="G", sort="point", symbol="battery", says=says, fields=FIELDS,
        ports=lambda values: (dc("main"),),
        gives=lambda values: (Gives("main", UNLIMITED, "storage"),),
        claims=lambda values: claim("main", values.get("voltage"), "storage"),
    )


KIND = kind("bank", "Batteries that work as one store of energy.")
