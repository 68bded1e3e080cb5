"""A dc panel."""

from diagrammer.kinds.kind import COUNT, CURRENT, NODE, Field, Kind, dc, plus

KIND = Kind(
    name="panel", letter="W", sort="point", symbol="panel",
    says="A dc distribution panel: a feed bar with ways, and a return bar of its own unless it has a pair.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest current it takes in"),
        Field("ways", COUNT, says="circuits it has room for"),
        Field("pair", NODE, says="the bar where its returns land, instead of a return bar of its own"),
    ),
    ports=lambda values: (plus("main") if values.get("pair") else dc("main"),),
)
