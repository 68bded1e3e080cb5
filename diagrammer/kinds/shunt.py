"""A measuring shunt."""

from diagrammer.kinds.kind import CURRENT, NODE, RESISTANCE, Field, Inner, Kind, contact, plus, word

KIND = Kind(
    name="shunt", letter="B", sort="through", symbol="shunt",
    says="Measures the current into and out of a bank, all of which must pass it.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest continuous current"),
        Field("resistance", RESISTANCE, above=0, says="between its two posts"),
        Field("side", word("return", "feed"), default="return", says="the conductor it is made for"),
        Field("measures", NODE, says="the one node whose current it measures, where that is not the bank"),
    ),
    ports=lambda values: (contact("battery"), contact("system"), plus("sense"), plus("midpoint")),
    inside=lambda values: (Inner("battery", "system", "shunt"),),
)
