"""A transfer switch between ac sources."""

from diagrammer.kinds.alternating import PHASES, port
from diagrammer.kinds.kind import CURRENT, EARTH, POSITIONS, Field, Inner, Kind, word
from diagrammer.kinds.selector import links, table, terminals

USUAL = {"1": (("1", "common"),), "off": (), "2": (("2", "common"),)}


def ports(values):
    return *(port(name, values) for name in terminals(table(values, USUAL))), EARTH


def joined_neutral(values, core: str) -> bool:
    return core == "N" and values.get("neutral") == "joined"


def inside(values):
    return tuple(
        Inner(f"{a}.{core}", f"{b}.{core}", "contact", () if joined_neutral(values, core) else positions)
        for (a, b), positions in links(table(values, USUAL)).items()
        for core in port("common", values).cores()
    )


KIND = Kind(
    name="transfer", letter="Q", sort="end", symbol="transfer",
    says="Joins one of several ac sources to what they feed, never two at once.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest continuous current of each line"),
        Field("positions", POSITIONS, says="what each position joins; unsaid 1, off, 2, each to common"),
        PHASES,
        Field("neutral", word("switched", "joined"), default="switched", says="whether the neutral is switched too"),
        Field("type", word("manual", "automatic"), says="worked by hand or by itself"),
    ),
    ports=ports,
    inside=inside,
    positions=lambda values: tuple(table(values, USUAL)),
)
