"""A transformer."""

from diagrammer.kinds import alternating
from diagrammer.kinds.alternating import INPUT, MAINS, PHASES, amps, bond, neutral, phases
from diagrammer.kinds.kind import EARTH, POWER, Field, Gives, Kind, ac, word


def separate(values) -> bool:
    return (values.get("earth") or "separate") == "separate"


def ports(values):
    wiring = phases(values)
    return ac("out", wiring), ac("in", wiring, earth=separate(values)), EARTH


def inside(values):
    return bond(values, "out.") if (values.get("neutral") or "bonded") == "bonded" else ()


KIND = Kind(
    name="transformer", letter="T", sort="end", symbol="transformer",
    says="Passes ac on through a magnetic core; its output is held by the protection of its input side.",
    fields=(
        Field("power", POWER, required=True, above=0, says="rated power"),
        MAINS, INPUT, PHASES, neutral("bonded", "floating", default="bonded"),
        Field("earth", word("separate", "through"), default="separate",
              says="whether the supply's earth stops at the input (separate) or is led on (through)"),
    ),
    ports=ports, inside=inside,
    gives=lambda values: (Gives("out", amps(values.get("power"), values.mains, phases(values)), "converter"),),
    claims=lambda values: (
        *alternating.claim("out", values, "source"), *alternating.claim("in", values, "input", "input voltage")
    ),
    supplies=lambda values: (("in", "out"),),
)
