"""A dump controller."""

from diagrammer.kinds.direct import COMMON, switched
from diagrammer.kinds.kind import CURRENT, EARTH, Field, Kind, dc

KIND = Kind(
    name="dump controller", letter="T", sort="end", symbol="dump-controller",
    says="Turns current into a dump load when the bank is full, so that a turbine on the bank stays loaded.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest current into the dump load"),
        COMMON,
    ),
    ports=lambda values: (dc("main"), dc("dump"), EARTH),
    inside=lambda values: switched(values, "dump"),
    supplies=lambda values: (("main", "dump"),),
)
