"""Whatever has no kind of its own."""

from diagrammer.kinds.alternating import PHASES, port
from diagrammer.kinds.direct import COMMON, joined
from diagrammer.kinds.kind import CURRENT, EARTH, PORTS, POWER, Field, Gives, Kind, dc, single, word

CLASSES = "ABCEFGHKMPQRSTUVWX"  # of objects by purpose: IEC 81346-2:2009, from memory
MAKERS = {"dc": lambda name, values: dc(name), "lead": lambda name, values: single(name), "ac": port}


def ports(values):
    written = values.get("ports") or {}
    return *(MAKERS[form](name, values) for name, form in written.items()), EARTH


def power_ports(values) -> tuple[str, ...]:
    return tuple(name for name, form in (values.get("ports") or {}).items() if form == "dc")


def inside(values):
    names = power_ports(values)
    if "main" not in names or not values.get("common"):
        return ()
    return joined(values, *(name for name in names if name != "main"))


def gives(values):
    names = power_ports(values)
    return (Gives(names[0], values["output"], "converter"),) if names and values.get("output") else ()


KIND = Kind(
    name="other", letter="U", sort="end", symbol="other",
    says="Whatever has no kind of its own, with the ports it is said to have; no voltage is checked at them.",
    fields=(
        Field("ports", PORTS, required=True, says="its ports, each dc, lead or ac"),
        Field("letter", word(*CLASSES), says="the letter it is numbered under (IEC 81346-2)"),
        Field("power", POWER, above=0, says="power it uses"),
        Field("output", CURRENT, above=0, says="highest current it puts out at its first dc port"),
        Field(COMMON.name, COMMON.form, default="none", says=COMMON.says), PHASES,
    ),
    ports=ports, inside=inside, gives=gives,
    letters=lambda values: values.get("letter") or "U",
)
