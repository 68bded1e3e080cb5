"""Metal of the vehicle that carries returns."""

from diagrammer.kinds.kind import LENGTH, RESISTANCE, Field, Kind, single


def kind(name: str, says: str) -> Kind:
    return Kind(
        name=name, letter="X", sort="point", symbol="chassis", says=says,
        fields=(
            Field("strap", LENGTH, least=0, says="length of the lead from what returns by it to its metal"),
            Field("resistance", RESISTANCE, default=0.0, least=0, says="of its metal, from one landing to another"),
        ),
        ports=lambda values: (single("main"),),
    )


KIND = kind("chassis", "The metal frame of a vehicle, used as a common return.")
