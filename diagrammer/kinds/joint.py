"""A joint: a splice, a stud or a junction box."""

from diagrammer.kinds.alternating import LINES
from diagrammer.kinds.kind import CURRENT, EARTH, NODE, Field, Kind, ac, single, word


def ports(values):
    wiring = values.get("phases")
    return (ac("main", str(wiring)), EARTH) if wiring else (single("main"),)


KIND = Kind(
    name="joint", letter="X", sort="point", symbol="joint",
    says="A splice, a stud or a terminal block where conductors meet; with phases an ac junction box.",
    fields=(
        Field("rating", CURRENT, above=0, says="highest current through it"),
        Field("pair", NODE, says="where the returns of what hangs on it land"),
        Field("phases", word(*LINES), says="makes it an ac junction box with these lines"),
    ),
    ports=ports,
)
