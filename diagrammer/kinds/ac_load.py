"""An ac load."""

from diagrammer.kinds.alternating import MAINS, PHASES, claim, port
from diagrammer.kinds.kind import EARTH, POWER, YES_NO, Field, Kind, quantity
from diagrammer.kinds.load import DUTY, HOURS, NUMBER_ALIKE, letter, symbol

KIND = Kind(
    name="ac load", letter="E", sort="point", symbol="load", uses=True, letters=letter, symbols=symbol,
    says="Something wired in that uses ac: a water heater, an air conditioner.",
    fields=(
        Field("power", POWER, required=True, above=0, says="power of one while it runs"),
        MAINS, PHASES,
        Field("start", quantity("power", "current"), above=0, says="power or current while it starts"),
        HOURS, NUMBER_ALIKE, DUTY,
        Field("earth", YES_NO, default=True, says="no where it is double insulated and takes no earth"),
    ),
    ports=lambda values: (port("main", values), *([] if values.get("earth") is False else [EARTH])),
    claims=lambda values: claim("main", values, "load"),
)
