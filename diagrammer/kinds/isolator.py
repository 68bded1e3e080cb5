"""A battery isolator: lets an alternator charge a second bank."""

from diagrammer.kinds.kind import CURRENT, Field, Inner, Kind, contact, minus, word


def inside(values):
    return (Inner("1", "2", "diode" if values.get("type") == "diode" else "contact"),)


KIND = Kind(
    name="isolator", letter="Q", sort="through", symbol="isolator",
    says="Joins a second bank to the engine's while that is charged: by sensing its voltage, or by a diode.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest continuous current"),
        Field("type", word("sensing", "diode"), default="sensing",
              says="a contact that closes while the voltage is high, or a diode from 1 to 2"),
    ),
    ports=lambda values: (contact("1"), contact("2"), minus("ground")),
    inside=inside,
)
