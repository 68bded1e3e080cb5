"""A fuse: opens once when the current is too large."""

from diagrammer.kinds.kind import COUNT, CURRENT, VOLTAGE, Field, Inner, Kind, contact, word

BODIES = ("class-t", "anl", "strip", "blade", "nh", "gpv", "cartridge", "cube", "inline")


def contacts(values):
    return tuple(contact(str(n)) for n in range(1, 2 * (values.get("poles") or 1) + 1))


def poles(form: str):
    def inside(values):
        return tuple(Inner(str(n), str(n + 1), form) for n in range(1, 2 * (values.get("poles") or 1), 2))
    return inside


KIND = Kind(
    name="fuse", letter="F", sort="through", symbol="fuse", device=True, words=BODIES,
    says="Opens once, for good, when the current is too large.",
    fields=(
        Field("type", word(*BODIES), says="the body, as its standard calls it"),
        Field("rating", CURRENT, least=0, says="rated current"),
        Field("breaking", CURRENT, least=0, says="the largest fault current it can break"),
        Field("voltage", VOLTAGE, least=0, says="rated voltage"),
        Field("poles", COUNT, default=1, most=4, says="conductors it opens together"),
    ),
    ports=contacts,
    inside=poles("overcurrent"),
)
