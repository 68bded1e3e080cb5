"""A socket outlet."""

from diagrammer.kinds.alternating import MAINS, PHASES, claim, port
from diagrammer.kinds.kind import CURRENT, EARTH, Field, Kind
from diagrammer.kinds.load import NUMBER_ALIKE

KIND = Kind(
    name="outlet", letter="X", sort="point", symbol="outlet", uses=True,
    says="A socket outlet into which anyone may plug anything of its rating.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="rated current"),
        MAINS, PHASES, NUMBER_ALIKE,
    ),
    ports=lambda values: (port("main", values), EARTH),
    claims=lambda values: claim("main", values, "load"),
)
