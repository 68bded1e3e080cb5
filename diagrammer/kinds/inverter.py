"""An inverter."""

from diagrammer.kinds import alternating, direct
from diagrammer.kinds.alternating import MAINS, PHASES, amps, bond, neutral, phases, port
from diagrammer.kinds.kind import EARTH, POWER, SHARE, TEXT, Field, Gives, Kind, dc, plus, window


def inside(values):
    """A relay that bonds while it inverts bonds always here: it has no other state."""
    return bond(values, "out.") if values.get("neutral") in ("bonded", "relay") else ()


KIND = Kind(
    name="inverter", letter="T", sort="end", symbol="inverter",
    says="Makes ac from a bank.",
    fields=(
        Field("power", POWER, required=True, above=0, says="continuous output power"),
        neutral("bonded", "floating", "relay", required=True),
        Field("efficiency", SHARE, least=1, most=100, says="share of the dc power that comes out as ac"),
        Field("input window", window("voltage"), least=1, says="dc voltages it runs at"),
        Field("surge", POWER, above=0, says="power for a few seconds"),
        MAINS, PHASES,
        Field("set", TEXT, says="name of the units that run as one with it"),
    ),
    ports=lambda values: (dc("main"), port("out", values), plus("enable"), EARTH),
    inside=inside,
    gives=lambda values: (Gives("out", amps(values.get("power"), values.mains, phases(values)), "converter"),),
    claims=lambda values: (
        direct.claim("main", values.get("input window"), "input") + alternating.claim("out", values, "source")
    ),
    supplies=lambda values: (("main", "out"),),
)
