"""A terminal strip or a connector with numbered pins."""

from diagrammer.kinds.kind import COUNT, CURRENT, Field, Kind, single

MOST = 500  # pins of one strip or connector; larger ones are made of several

KIND = Kind(
    name="terminals", letter="X", sort="point", symbol="terminals",
    says="A terminal strip or connector whose numbered pins are apart from each other.",
    fields=(
        Field("pins", COUNT, required=True, most=MOST, says="how many pins, numbered from 1"),
        Field("rating", CURRENT, above=0, says="highest current through one pin"),
    ),
    ports=lambda values: tuple(single(str(pin)) for pin in range(1, (values.get("pins") or 0) + 1)),
)
