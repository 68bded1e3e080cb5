"""A fuse: opens once when the current is too large. Also what all things of two ends are made of."""

from collections.abc import Callable

from diagrammer.kinds.kind import COUNT, CURRENT, VOLTAGE, Field, Inner, Kind, Port, Values, contact, word

BODIES = ("class-t", "anl", "strip", "blade", "nh", "gpv", "cartridge", "cube", "inline")
RATING = Field("rating", CURRENT, above=0, says="rated current")
BREAKING = Field("breaking", CURRENT, above=0, says="the largest fault current it can break")
RATED_VOLTAGE = Field("voltage", VOLTAGE, above=0, says="rated voltage")
POLES = Field("poles", COUNT, default=1, most=4, says="conductors of one circuit that it opens together")


def pairs(values: Values) -> int:
    """How many ways through: poles of one circuit or contacts of separate ones."""
    return max(values.get("poles") or 1, values.get("contacts") or 1)


def contacts(values: Values) -> tuple[Port, ...]:
    """In at 1 out at 2, in at 3 out at 4 ..."""
    return tuple(contact(str(n)) for n in range(1, 2 * pairs(values) + 1))


def poles(form: str) -> Callable[[Values], tuple[Inner, ...]]:
    """Every way through it passes current in this form."""
    def inside(values: Values) -> tuple[Inner, ...]:
        return tuple(Inner(str(n), str(n + 1), form) for n in range(1, 2 * pairs(values), 2))
    return inside


KIND = Kind(
    name="fuse", letter="F", sort="through", symbol="fuse", device=True, words=BODIES,
    says="Opens once, for good, when the current is too large.",
    fields=(
        Field("type", word(*BODIES), says="the body, as its standard calls it"),
        RATING, BREAKING, RATED_VOLTAGE, POLES,
    ),
    ports=contacts,
    inside=poles("overcurrent"),
)
