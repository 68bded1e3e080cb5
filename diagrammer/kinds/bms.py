"""A battery management system."""

from diagrammer.kinds.kind import CURRENT, NODES, Field, Inner, Kind, contact, dc, plus

SIGNALS = ("allow-load", "allow-charge")

KIND = Kind(
    name="bms", letter="K", sort="through", symbol="bms",
    says="Watches a bank's cells and opens its load or charge path, or tells others to, before they come to harm.",
    fields=(
        Field("rating", CURRENT, above=0, says="highest continuous current through it"),
        Field("controls", NODES, says="what its signals switch on and off"),
    ),
    ports=lambda values: (
        contact("battery"), contact("load"), contact("charge"), dc("supply"),
        *(plus(name) for name in SIGNALS), plus("sense"),
    ),
    inside=lambda values: (
        Inner("battery", "load", "contact"), Inner("battery", "charge", "contact"),
        *(Inner("supply.+", name, "contact") for name in SIGNALS),
    ),
)
