"""A connection to the ground or the water."""

from diagrammer.kinds.kind import RESISTANCE, Field, Kind, single


def kind(name: str, says: str) -> Kind:
    return Kind(
        name=name, letter="X", sort="point", symbol="earth", says=says,
        fields=(Field("resistance", RESISTANCE, least=0, says="to the mass of the earth"),),
        ports=lambda values: (single("main"),),
    )


KIND = kind("earth", "A connection to the mass of the earth.")
