"""A circuit breaker."""

from diagrammer.kinds.fuse import BREAKING, POLES, RATED_VOLTAGE, RATING, contacts, poles
from diagrammer.kinds.kind import YES_NO, Field, Kind, word

TRIPS = ("thermal", "hydraulic", "curve-b", "curve-c", "curve-d")
CURRENTS = ("ac-only", "dc")

KIND = Kind(
    name="breaker", letter="Q", sort="through", symbol="breaker", device=True, words=(*TRIPS, *CURRENTS, "polarised"),
    says="Opens when the current is too large and can be closed again by hand.",
    fields=(
        Field("type", word(*TRIPS, *CURRENTS), says="how it trips, or the one current it is made to break"),
        RATING, BREAKING, RATED_VOLTAGE, POLES,
        Field("polarised", YES_NO, says="it breaks current of one direction only, in at 1"),
    ),
    ports=contacts,
    inside=poles("overcurrent"),
)
