"""A dc load."""

from dataclasses import replace

from diagrammer.kinds.direct import claim
from diagrammer.kinds.kind import (
    COUNT, CURRENT, EARTH, NUMBER, POWER, YES_NO, Field, Gives, Kind, Values, dc, quantity, window, word,
)

DUTY = Field("duty", word("motor", "heat", "light", "electronics"), says="what it makes of the current")
HOURS = Field("hours", replace(NUMBER, dimensions=("duration",)), least=0, most=24, says="hours a day it runs")
NUMBER_ALIKE = Field("count", COUNT, default=1, says="how many alike, drawn as one")


def letter(values: Values) -> str:
    return "M" if values.get("duty") == "motor" else "E"


def symbol(values: Values) -> str:
    return {"motor": "motor", "heat": "heater", "light": "lamp"}.get(values.get("duty"), "load")


KIND = Kind(
    name="load", letter="E", sort="point", symbol="load", uses=True, letters=letter, symbols=symbol,
    says="Something that uses dc: a lamp, a pump, a fridge, a radio.",
    fields=(
        Field("voltage", window("voltage"), required=True, least=1, says="nominal voltage, or the window it runs at"),
        Field("power", POWER, above=0, says="power of one while it runs"),
        Field("current", CURRENT, above=0, says="current of one while it runs, instead of the power"),
        Field("critical", YES_NO, default=False, says="the narrower voltage drop of the practice holds for it"),
        Field("always on", YES_NO, default=False, says="it must run while the main switch is open"),
        Field("start", quantity("power", "current"), above=0, says="power or current while it starts"),
        HOURS,
        Field("regen", CURRENT, least=0, says="highest current it returns when it brakes"),
        NUMBER_ALIKE, DUTY,
    ),
    ports=lambda values: (dc("main"), EARTH),
    gives=lambda values: (Gives("main", values["regen"], "charger"),) if values.get("regen") else (),
    claims=lambda values: claim("main", values.get("voltage"), "load"),
    either=(("power", "current"),),
)
