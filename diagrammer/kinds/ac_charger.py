"""A charger from ac to dc."""

from diagrammer.kinds import alternating, direct
from diagrammer.kinds.alternating import INPUT
from diagrammer.kinds.kind import COUNT, CURRENT, EARTH, VOLTAGE, Field, Gives, Kind, ac, dc, plus


def outputs(values) -> tuple[str, ...]:
    return "main", *(str(n) for n in range(2, (values.get("outputs") or 1) + 1))


def ports(values):
    return dc("main"), ac("in"), *(plus(name) for name in outputs(values)[1:]), dc("sense"), EARTH


def claims(values):
    out = (claim for name in outputs(values) for claim in direct.claim(name, values.get("voltage"), "source"))
    return *out, *alternating.claim("in", values, "input", "input voltage")


KIND = Kind(
    name="ac charger", letter="T", sort="end", symbol="charger-ac",
    says="Charges banks from ac; its outputs share one negative.",
    fields=(
        Field("output", CURRENT, required=True, above=0, says="highest charge current of all outputs together"),
        Field("voltage", VOLTAGE, least=1, says="nominal voltage, or the charge voltage, of the bank it charges"),
        INPUT,
        Field("outputs", COUNT, default=1, most=3, says="outputs, the second and third named 2 and 3"),
    ),
    ports=ports, claims=claims,
    gives=lambda values: tuple(Gives(name, values.get("output") or 0.0, "charger") for name in outputs(values)),
    supplies=lambda values: tuple(("in", name) for name in outputs(values)),
)
