"""A pv inverter: feeds ac that another source makes."""

from diagrammer.kinds.alternating import MAINS, PHASES, amps, claim, phases, port
from diagrammer.kinds.kind import EARTH, POWER, VOLTAGE, Field, Gives, Kind, dc

KIND = Kind(
    name="pv inverter", letter="T", sort="end", symbol="inverter",
    says="Feeds a pv array's power into ac that another source makes; alone it gives nothing.",
    fields=(
        Field("power", POWER, required=True, above=0, says="highest output power"),
        Field("max pv voltage", VOLTAGE, required=True, above=0, says="highest open-circuit voltage at its pv port"),
        MAINS, PHASES,
    ),
    ports=lambda values: (dc("pv"), port("out", values), EARTH),
    gives=lambda values: (Gives("out", amps(values.get("power"), values.mains, phases(values)), "converter"),),
    claims=lambda values: claim("out", values, "source"),
    supplies=lambda values: (("pv", "out"),),
)
