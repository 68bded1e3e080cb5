"""A switch."""

from diagrammer.kinds.fuse import POLES, RATED_VOLTAGE, RATING, contacts, poles
from diagrammer.kinds.kind import COUNT, YES_NO, Field, Kind, Values, word

SORTS = ("battery", "float", "momentary", "pressure", "ignition", "thermostat", "door", "foot", "key", "stop")


def symbol(values: Values) -> str:
    return "battery-switch" if "battery" in (values.get("type") or "").split() else "switch"


KIND = Kind(
    name="switch", letter="Q", sort="through", symbol="switch", device=True, words=("open", *SORTS), symbols=symbol,
    says="Opens and closes a circuit, by hand or by what it senses; it breaks no fault current.",
    fields=(
        Field("type", word(*SORTS), says="what works it"),
        RATING, RATED_VOLTAGE, POLES,
        Field("contacts", COUNT, default=1, most=4, says="contacts in circuits apart from each other"),
        Field("open", YES_NO, default=False, says="it rests open"),
    ),
    ports=contacts,
    inside=poles("contact"),
)
