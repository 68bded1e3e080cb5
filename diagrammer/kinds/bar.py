"""A bus bar."""

from diagrammer.kinds.kind import CURRENT, NODE, TEXT, Field, Kind, single

KIND = Kind(
    name="bar", letter="W", sort="point", symbol="bar",
    says="A bus bar: one piece of metal on which many conductors land.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest current along it"),
        Field("pair", NODE, says="where the returns of what hangs on it land"),
        Field("stud", TEXT, says="its studs, such as M8 or 3/8 in"),
    ),
    ports=lambda values: (single("main"),),
)
