"""A resistor."""

from diagrammer.kinds.fuse import RATING
from diagrammer.kinds.kind import POWER, RESISTANCE, Field, Inner, Kind, contact

KIND = Kind(
    name="resistor", letter="R", sort="through", symbol="resistor", device=True,
    says="Holds a current down, such as the rush into an inverter's capacitors.",
    fields=(
        Field("resistance", RESISTANCE, required=True, above=0, says="its resistance"),
        Field("power", POWER, above=0, says="heat it bears continuously"),
        RATING,
    ),
    ports=lambda values: (contact("1"), contact("2")),
    inside=lambda values: (Inner("1", "2", "resistor"),),
)
