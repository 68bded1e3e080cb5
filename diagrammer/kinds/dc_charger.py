"""A charger from dc to dc."""

from diagrammer.kinds.direct import COMMON, claim, joined
from diagrammer.kinds.kind import CURRENT, EARTH, VOLTAGE, Field, Gives, Kind, dc, plus, window


def has_pv(values) -> bool:
    return bool(values.get("max pv voltage"))


def ports(values):
    return dc("main"), dc("in"), *([dc("pv")] if has_pv(values) else []), plus("enable"), plus("sense"), EARTH


def supplies(values):
    return ("in", "main"), *([("pv", "main")] if has_pv(values) else [])


KIND = Kind(
    name="dc charger", letter="T", sort="end", symbol="charger-dc",
    says="Charges one bank from another, such as a house bank from an engine's alternator.",
    fields=(
        Field("output", CURRENT, required=True, above=0, says="highest charge current"),
        Field("voltage", VOLTAGE, least=1, says="nominal voltage, or the charge voltage, of the bank it charges"),
        Field("input voltage", window("voltage"), least=1, says="nominal voltage or window of its input"),
        Field("input current", CURRENT, above=0, says="highest current it draws"),
        Field("max pv voltage", VOLTAGE, above=0, says="highest open-circuit voltage at its pv port; without it none"),
        COMMON,
    ),
    ports=ports, supplies=supplies,
    inside=lambda values: joined(values, "in", *(["pv"] if has_pv(values) else [])),
    gives=lambda values: (Gives("main", values.get("output") or 0.0, "charger"),),
    claims=lambda values: (
        claim("main", values.get("voltage"), "source") + claim("in", values.get("input voltage"), "input")
    ),
)
