"""An inverter charger: inverts, or passes ac through and charges."""

from diagrammer.kinds import alternating, direct
from diagrammer.kinds.alternating import MAINS, PHASES, amps, bond, neutral, phases, port
from diagrammer.kinds.kind import (
    COUNT, CURRENT, EARTH, POWER, SHARE, TEXT, YES_NO, Field, Gives, Inner, Kind, dc, window,
)


def bypasses(values) -> dict[str, str]:
    """{input port: the position in which it is passed to the output}."""
    return {"in": "bypass", "in2": "bypass 2"} if values.get("inputs") == 2 else {"in": "bypass"}


def ports(values):
    return dc("main"), port("out", values), *(port(name, values) for name in bypasses(values)), dc("sense"), EARTH


def positions(values):
    return "inverting", *bypasses(values).values()


def inside(values):
    cores = port("out", values).cores()
    through = tuple(
        Inner(f"{name}.{core}", f"out.{core}", "contact", (position,))
        for name, position in bypasses(values).items() for core in cores
    )
    how = values.get("neutral") or "relay"
    return through + {"relay": bond(values, "out.", ("inverting",)), "bonded": bond(values, "out.")}.get(how, ())


def gives(values):
    inverting = () if values.get("assist") else ("inverting",)
    limit = amps(values.get("power"), values.mains, phases(values))
    charging = tuple(bypasses(values).values())
    return Gives("out", limit, "converter", inverting), Gives("main", values.get("charge") or 0.0, "charger", charging)


def claims(values):
    taken = (claim for name in bypasses(values) for claim in alternating.claim(name, values, "input"))
    out = alternating.claim("out", values, "source")
    return *direct.claim("main", values.get("input window"), "input"), *out, *taken


def supplies(values):
    return ("main", "out"), *(pair for name in bypasses(values) for pair in ((name, "out"), (name, "main")))


KIND = Kind(
    name="inverter charger", letter="T", sort="end", symbol="inverter-charger",
    says="Makes ac from a bank, or passes ac from outside through and charges the bank from it.",
    fields=(
        Field("power", POWER, required=True, above=0, says="continuous output power while inverting"),
        Field("charge", CURRENT, required=True, least=0, says="highest charge current"),
        Field("surge", POWER, above=0, says="power for a few seconds"),
        Field("transfer", CURRENT, above=0, says="current its changeover can pass through"),
        Field("efficiency", SHARE, least=1, most=100, says="share of the dc power that comes out as ac"),
        Field("input window", window("voltage"), least=1, says="dc voltages it runs at"),
        MAINS, PHASES, neutral("bonded", "floating", "relay", default="relay"),
        Field("inputs", COUNT, default=1, most=2, says="ac inputs, the second named in2"),
        Field("assist", YES_NO, default=False, says="adds its own power to what it passes through"),
        Field("set", TEXT, says="name of the units that run as one with it"),
    ),
    ports=ports, inside=inside, gives=gives, claims=claims, supplies=supplies, positions=positions,
)
