"""A motor drive."""

from math import sqrt

from diagrammer.kinds.direct import claim
from diagrammer.kinds.kind import CURRENT, EARTH, POWER, VOLTAGE, Field, Gives, Kind, ac, dc, plus


def gives(values):
    """The motor's line current at full power and modulation, P = sqrt(3) V I with V the bank's
    voltage over sqrt(2), and what braking returns to the bank."""
    voltage = values.get("voltage")
    line = sqrt(2 / 3) * (values.get("power") or 0.0) / voltage if voltage else 0.0
    back = values.get("regen")
    return Gives("motor", line, "converter"), *([Gives("main", back, "charger")] if back else [])


KIND = Kind(
    name="drive", letter="T", sort="end", symbol="drive",
    says="Drives a three-phase motor from a bank, and may return current when it brakes.",
    fields=(
        Field("power", POWER, required=True, above=0, says="rated power"),
        Field("voltage", VOLTAGE, required=True, least=1, says="nominal voltage of the bank it runs on"),
        Field("regen", CURRENT, least=0, says="highest current it returns to the bank"),
    ),
    ports=lambda values: (dc("main"), ac("motor", "3"), plus("enable"), EARTH),
    gives=gives,
    claims=lambda values: claim("main", values.get("voltage"), "input"),
    supplies=lambda values: (("main", "motor"),),
)
