"""An engine's starter motor."""

from diagrammer.kinds.direct import claim
from diagrammer.kinds.kind import CURRENT, VOLTAGE, Field, Kind, dc

KIND = Kind(
    name="starter", letter="M", sort="point", symbol="starter", uses=True,
    says="The motor that cranks an engine; its cable is not fused (common practice, and the standards exempt it).",
    fields=(
        Field("current", CURRENT, required=True, above=0, says="current while it cranks"),
        Field("voltage", VOLTAGE, least=1, says="nominal voltage"),
    ),
    ports=lambda values: (dc("main"),),
    claims=lambda values: claim("main", values.get("voltage"), "load"),
)
