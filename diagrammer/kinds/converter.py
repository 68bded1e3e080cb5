"""A converter from one dc voltage to another."""

from diagrammer.kinds.direct import COMMON, claim, joined
from diagrammer.kinds.kind import CURRENT, EARTH, SHARE, VOLTAGE, Field, Gives, Kind, dc, plus, window

KIND = Kind(
    name="converter", letter="T", sort="end", symbol="converter",
    says="Makes one steady dc voltage from another.",
    fields=(
        Field("voltage", VOLTAGE, required=True, least=1, says="what it puts out"),
        Field("output", CURRENT, required=True, above=0, says="highest output current"),
        Field("input voltage", window("voltage"), least=1, says="nominal voltage or window of its input"),
        Field("efficiency", SHARE, least=1, most=100, says="share of the input power that comes out"),
        COMMON,
    ),
    ports=lambda values: (dc("main"), dc("in"), plus("enable"), EARTH),
    inside=lambda values: joined(values, "in"),
    gives=lambda values: (Gives("main", values.get("output") or 0.0, "converter"),),
    claims=lambda values: (
        claim("main", values.get("voltage"), "source") + claim("in", values.get("input voltage"), "input")
    ),
    supplies=lambda values: (("in", "main"),),
)
