"""An engine generator for ac."""

from diagrammer.kinds.alternating import MAINS, PHASES, bond, claim, neutral, port
from diagrammer.kinds.kind import CURRENT, EARTH, POWER, UNLIMITED, Field, Gives, Kind, word


def inside(values):
    return bond(values) if values.get("neutral") == "bonded" else ()


KIND = Kind(
    name="generator", letter="G", sort="end", symbol="generator",
    says="An engine that makes ac; without a breaker of its own in the file it counts as unlimited.",
    fields=(
        Field("power", POWER, required=True, above=0, says="rated continuous power"),
        neutral("bonded", "floating", required=True), MAINS, PHASES,
        Field("short circuit", CURRENT, above=0, says="short-circuit current that it keeps up, by its data sheet"),
        Field("fuel", word("petrol", "diesel", "gas"), says="what its engine burns"),
    ),
    ports=lambda values: (port("main", values), EARTH),
    inside=inside,
    gives=lambda values: (Gives("main", UNLIMITED, "source"),),
    claims=lambda values: claim("main", values, "source"),
)
