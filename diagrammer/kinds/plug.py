"""A plug with its socket, an inlet or another connector."""

from diagrammer.kinds.fuse import RATING, contacts, poles
from diagrammer.kinds.kind import COUNT, Field, Kind, word
from diagrammer.kinds.rcd import both

SORTS = ("inlet", "socket", "connector")

KIND = Kind(
    name="plug", letter="X", sort="through", symbol="plug", device=True, words=SORTS,
    says="A plug in its socket, an inlet or a connector: every core passes it and can be parted by hand.",
    fields=(
        Field("type", word(*SORTS), says="what it is: an inlet, a socket or a connector"),
        RATING,
        Field("poles", COUNT, most=4, says="conductors that pass it; unsaid, every one of the circuit"),
    ),
    ports=both(contacts),
    inside=both(poles("contact")),
)
