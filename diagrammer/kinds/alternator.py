"""An engine's alternator."""

from diagrammer.kinds.direct import claim
from diagrammer.kinds.kind import CURRENT, UNLIMITED, VOLTAGE, YES_NO, Field, Gives, Kind, dc, plus


def gives(values):
    limited = values.get("self limiting") is not False
    return (Gives("main", (values.get("output") or 0.0) if limited else UNLIMITED, "source"),)


KIND = Kind(
    name="alternator", letter="G", sort="end", symbol="alternator",
    says="An engine's alternator with its rectifier and regulator.",
    fields=(
        Field("output", CURRENT, required=True, above=0, says="rated output current"),
        Field("voltage", VOLTAGE, least=1, most=100, says="voltage its regulator holds"),
        Field("continuous", CURRENT, above=0, says="output it can give hour after hour when hot"),
        Field("self limiting", YES_NO, default=True, says="its own design holds the current to the rated output"),
    ),
    ports=lambda values: (dc("main"), plus("sense"), plus("field"), plus("lamp")),
    gives=gives,
    claims=lambda values: claim("main", values.get("voltage"), "source"),
)
