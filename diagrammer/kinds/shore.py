"""Shore power: the public supply of a harbour, a pitch or a house."""

from diagrammer.kinds.alternating import MAINS, PHASES, bond, claim, neutral, port
from diagrammer.kinds.kind import CURRENT, EARTH, FREQUENCY, UNLIMITED, Field, Gives, Kind


def inside(values):
    return bond(values) if (values.get("neutral") or "bonded") == "bonded" else ()


KIND = Kind(
    name="shore", letter="X", sort="end", symbol="shore",
    says="The public supply of a harbour, a pitch or a house, as it arrives at the inlet.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="current of the pedestal's own breaker"),
        MAINS, PHASES, neutral("bonded", "floating", default="bonded"),
        Field("short circuit", CURRENT, above=0, says="prospective short-circuit current where it arrives"),
        Field("frequency", FREQUENCY, above=0, says="of the supply"),
    ),
    ports=lambda values: (port("main", values), EARTH),
    inside=inside,
    gives=lambda values: (Gives("main", UNLIMITED, "source"),),
    claims=lambda values: claim("main", values, "source"),
)
