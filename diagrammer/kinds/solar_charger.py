"""A solar charger."""

from diagrammer.kinds.direct import COMMON, joined, switched
from diagrammer.kinds.kind import CURRENT, EARTH, VOLTAGE, Field, Gives, Kind, dc, word


def has_load(values) -> bool:
    return bool(values.get("load output"))


def ports(values):
    return dc("main"), dc("pv"), *([dc("load")] if has_load(values) else []), dc("sense"), EARTH


def inside(values):
    return joined(values, "pv") + (switched(values, "load") if has_load(values) else ())


def supplies(values):
    return ("pv", "main"), *([("main", "load")] if has_load(values) else [])


KIND = Kind(
    name="solar charger", letter="T", sort="end", symbol="solar-charger",
    says="Charges a bank from a pv array.",
    fields=(
        Field("type", word("mppt", "pwm"), required=True, says="mppt converts at full power, pwm connects in pulses"),
        Field("output", CURRENT, required=True, above=0, says="highest charge current"),
        Field("max pv voltage", VOLTAGE, required=True, above=0, says="highest open-circuit voltage at its pv port"),
        Field("max pv current", CURRENT, above=0, says="highest short-circuit current at its pv port"),
        Field("load output", CURRENT, above=0, says="rating of its switched load port; without it there is none"),
        COMMON,
    ),
    ports=ports, inside=inside, supplies=supplies,
    gives=lambda values: (Gives("main", values.get("output") or 0.0, "charger"),),
)
