"""A relay."""

from diagrammer.kinds.direct import claim
from diagrammer.kinds.fuse import POLES, contacts, poles
from diagrammer.kinds.kind import COUNT, CURRENT, VOLTAGE, YES_NO, Field, Kind, dc


def kind(name: str, says: str) -> Kind:
    return Kind(
        name=name, letter="Q", sort="through", symbol="relay", says=says,
        fields=(
            Field("rating", CURRENT, required=True, above=0, says="highest continuous current of a contact"),
            Field("coil", VOLTAGE, required=True, above=0, says="nominal voltage of its coil"),
            Field("coil current", CURRENT, above=0, says="current of its coil"),
            Field("open", YES_NO, default=True, says="its contacts rest open"),
            POLES,
            Field("contacts", COUNT, default=1, most=4, says="contacts in circuits apart from each other"),
        ),
        ports=lambda values: (*contacts(values), dc("coil")),
        inside=poles("contact"),
        claims=lambda values: claim("coil", values.get("coil"), "load"),
    )


KIND = kind("relay", "A switch worked by a coil.")
