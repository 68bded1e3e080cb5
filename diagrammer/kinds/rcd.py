"""A residual-current device."""

from diagrammer.kinds.fuse import BREAKING, RATED_VOLTAGE, RATING, contacts, poles
from diagrammer.kinds.kind import COUNT, CURRENT, Field, Kind, Values, word

SORTS = ("type-a", "type-ac", "type-b", "type-f")
HUMAN = 0.03  # [A] additional protection of persons: IEC 60364-4-41, 415.1


def both(of):
    """Line and neutral where nothing else is said."""
    return lambda values: of(Values({**values, "poles": values.get("poles") or 2}, values.practice))


def kind(name: str, form: str, says: str) -> Kind:
    return Kind(
        name=name, letter="F", sort="through", symbol=name, device=True, words=SORTS, says=says,
        fields=(
            Field("type", word(*SORTS), says="the waveforms of residual current it sees"),
            RATING,
            Field("residual", CURRENT, default=HUMAN, above=0, says="rated residual operating current"),
            BREAKING, RATED_VOLTAGE,
            Field("poles", COUNT, most=4, says="conductors it opens; unsaid, every line and the neutral"),
        ),
        ports=both(contacts),
        inside=both(poles(form)),
    )


KIND = kind("rcd", "contact", "Opens when current leaks to earth; it does not protect against overcurrent.")
