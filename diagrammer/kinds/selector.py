"""A selector: a switch of several positions."""

from diagrammer.kinds.direct import claim
from diagrammer.kinds.kind import CURRENT, POSITIONS, VOLTAGE, Field, Inner, Kind, contact, dc

USUAL = {"off": (), "1": (("1", "common"),), "2": (("2", "common"),), "both": (("1", "2", "common"),)}


def table(values, usual=None) -> dict[str, tuple[tuple[str, ...], ...]]:
    """{position: groups of terminals that are joined in it}."""
    return dict(values.get("positions") or usual or USUAL)


def terminals(positions) -> tuple[str, ...]:
    """All that its positions name, in their order, the common one first."""
    named = dict.fromkeys(name for groups in positions.values() for group in groups for name in group)
    return tuple(sorted(named, key=lambda name: name != "common"))


def links(positions) -> dict[tuple[str, str], tuple[str, ...]]:
    """{two terminals: the positions in which they are joined}: in each group, all to the first."""
    order = terminals(positions)
    joined: dict[tuple[str, str], tuple[str, ...]] = {}
    for position, groups in positions.items():
        for group in groups:
            first, *others = sorted(group, key=order.index)
            for other in others:
                joined[first, other] = (*joined.get((first, other), ()), position)
    return joined


def inside(values):
    return tuple(Inner(a, b, "contact", positions) for (a, b), positions in links(table(values)).items())


KIND = Kind(
    name="selector", letter="Q", sort="end", symbol="selector",
    says="A switch of several positions that joins its terminals in groups.",
    fields=(
        Field("rating", CURRENT, required=True, above=0, says="highest continuous current"),
        Field("positions", POSITIONS, says="what each position joins; unsaid off, 1, 2, both, each to common"),
        Field("coil", VOLTAGE, above=0, says="nominal voltage of its drive, where it is worked from afar"),
    ),
    ports=lambda values: (
        *(contact(name) for name in terminals(table(values))), *([dc("coil")] if values.get("coil") else [])
    ),
    inside=inside,
    claims=lambda values: claim("coil", values.get("coil"), "load"),
    positions=lambda values: tuple(table(values)),
)
