"""An ac panel."""

from diagrammer.kinds.alternating import PHASES, bond, neutral, port
from diagrammer.kinds.kind import COUNT, CURRENT, EARTH, Field, Kind

KIND = Kind(
    name="ac panel", letter="W", sort="point", symbol="ac-panel",
    says="An ac distribution panel with bars for the lines, the neutral and the earth.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest current of each line"),
        Field("ways", COUNT, says="circuits it has room for"),
        PHASES, neutral("bonded", "floating", default="floating"),
    ),
    ports=lambda values: (port("main", values), EARTH),
    inside=lambda values: bond(values) if values.get("neutral") == "bonded" else (),
)
