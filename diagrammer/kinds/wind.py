"""A wind turbine, and what else a stream turns: a raw source that must not run open."""

from diagrammer.kinds import direct
from diagrammer.kinds.kind import CURRENT, EARTH, POWER, VOLTAGE, Claim, Field, Gives, Kind, ac, dc, word


def three(values) -> bool:
    return values.get("phases") == "3"


def ports(values):
    return (ac("main", "3") if three(values) else dc("main"), EARTH)


def gives(values):
    """Its rated output; else what the rated power makes at the nominal voltage."""
    limit = values.get("output") or (values.get("power") or 0.0) / (values.get("voltage") or 12.0)
    return (Gives("main", limit, "raw"),)


def claims(values):
    voltage = values.get("voltage")
    if three(values) and voltage:
        return (Claim("main", voltage, voltage, "source", volts=(voltage,)),)
    return direct.claim("main", voltage, "source")


def kind(name: str, says: str) -> Kind:
    return Kind(
        name=name, letter="G", sort="end", symbol=name, says=says,
        fields=(
            Field("power", POWER, required=True, above=0, says="rated power"),
            Field("voltage", VOLTAGE, least=1, says="nominal voltage of the bank it is made for"),
            Field("open voltage", VOLTAGE, least=1, says="highest voltage while nothing loads it"),
            Field("output", CURRENT, above=0, says="highest current; unsaid, power over voltage (12 V if none)"),
            Field("phases", word("3"), says="three wild ac phases; without it dc"),
        ),
        ports=ports, gives=gives, claims=claims,
    )


KIND = kind("wind", "A wind turbine; it races when nothing loads it, so its controller may not simply disconnect it.")
