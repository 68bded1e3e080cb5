"""A diode."""

from diagrammer.kinds.fuse import RATING
from diagrammer.kinds.kind import Inner, Kind, contact

KIND = Kind(
    name="diode", letter="R", sort="through", symbol="diode", device=True,
    says="Passes current one way, from 1 to 2.",
    fields=(RATING,),
    ports=lambda values: (contact("1"), contact("2")),
    inside=lambda values: (Inner("1", "2", "diode"),),
)
