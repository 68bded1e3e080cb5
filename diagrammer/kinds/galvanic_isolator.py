"""A galvanic isolator."""

from diagrammer.kinds.fuse import RATING
from diagrammer.kinds.kind import Inner, Kind, contact

KIND = Kind(
    name="galvanic-isolator", letter="R", sort="through", symbol="galvanic-isolator", device=True,
    says="Stands in the earth core of shore power: blocks the small dc that corrodes a hull, passes fault current.",
    fields=(RATING,),
    ports=lambda values: (contact("1"), contact("2")),
    inside=lambda values: (Inner("1", "2", "capacitor"),),
)
