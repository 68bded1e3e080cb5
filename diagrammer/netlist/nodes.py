"""The `nodes` section: every node with its kind, its fields and their places."""

from __future__ import annotations

from collections.abc import Collection
from collections.abc import Mapping as MappingType

from diagrammer.kinds import DEVICES, KINDS
from diagrammer.kinds.kind import SHARED, Field, Kind, Values
from diagrammer.netlist import fields, pairs
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.everyday import EVERYDAY
from diagrammer.netlist.model import Node
from diagrammer.netlist.path import NAME
from diagrammer.quantity import DIMENSIONS, Measure
from diagrammer.text.place import Place
from diagrammer.text.suggest import did_you_mean, listed, nearest, shortened
from diagrammer.text.tree import Mapping, Scalar, Tree

MOST = 100_000  # terminals of all nodes; a large boat has a thousand

Parts = MappingType[str, Mapping]


def read(tree: Tree | None, practice: str, parts: Parts, say: Complaints) -> tuple[dict[str, Node], set[str]]:
    """All declared nodes, in file order, and the names of those that could not be understood."""
    if tree is None:
        return {}, set()
    if not isinstance(tree, Mapping):
        say(tree.place, "`nodes` has one entry a node: `name: {kind: ..., ...}`")
        return {}, set()
    nodes: dict[str, Node] = {}
    folded: dict[str, str] = {}
    terminals = 0
    for key, value in tree:
        if not _good_name(key, say):
            continue
        twin = folded.setdefault(key.text.casefold(), key.text)
        if twin != key.text:
            say(key.place, f"`{key.text}` and `{twin}` differ only in upper and lower case", "Give one another name.")
        node = _node(key, value, practice, parts, say)
        if node:
            nodes[key.text] = node
            terminals += len(node.ports)
        if terminals > MOST:
            say(key.place, f"more than {MOST:,} ports up to here; a netlist has fewer")
            break
    unreadable = {*(key.text for key, _ in tree), *tree.empty} - set(nodes)
    pairs.check(nodes, unreadable, say)
    return nodes, unreadable


def _good_name(key: Scalar, say: Complaints) -> bool:
    if key.text in DEVICES:
        say(key.place, f"`{key.text}` is the word for a device and can't be the name of a node")
    elif len(key.text) > 80 or not NAME.fullmatch(key.text):
        say(key.place, f"`{shortened(key.text)}` can't be a name",
            "Names have letters, digits, - and _, and no - at the end.")
    else:
        return True
    return False


def _node(key: Scalar, value: Tree, practice: str, parts: Parts, say: Complaints) -> Node | None:
    if not isinstance(value, Mapping):
        say(value.place, f"node `{key.text}` is written with its fields: `{{kind: ..., ...}}`")
        return None
    entries = {name.text: (name, tree) for name, tree in value}
    part = entries.get("part")
    if part:
        entries = {**_part(part[1], parts, say), **entries}
    if "kind" in value.empty or (part and "kind" not in entries):
        return None
    kind = _kind(key, entries.pop("kind", None), entries, say)
    return make(key.text, key.place, kind, entries, practice, say, empty=value.empty) if kind else None


def _part(tree: Tree, parts: Parts, say: Complaints) -> dict[str, tuple[Scalar, Tree]]:
    name = tree.text if isinstance(tree, Scalar) else ""
    if name not in parts:
        say.unknown(tree.place, "part", name, parts, "List the file that holds it under `parts`.")
        return {}
    return {key.text: (key, value) for key, value in parts[name]}


def _kind(key: Scalar, entry: tuple[Scalar, Tree] | None, names: Collection[str], say: Complaints) -> Kind | None:
    if entry is None:
        near = nearest("kind", names) or [name for name in names if name == "type"]
        say(key.place, f"node `{key.text}` has no kind", f"Write `kind: ...`{f', not `{near[0]}`' if near else ''}.")
        return None
    name = entry[1].text if isinstance(entry[1], Scalar) else ""
    if name not in KINDS:
        say(entry[1].place, f"there is no kind `{shortened(name)}`", _other_kind(name))
        return None
    return KINDS[name]


def _other_kind(name: str) -> str:
    meant = EVERYDAY.get(name.casefold().replace("-", " ").replace("_", " "))
    if meant:
        return f"Write {listed([f'`kind: {kind}`' for kind in meant], 'or')}."
    return did_you_mean(name, KINDS) or f"There are {listed(KINDS)}."


def make(
    name: str, place: Place, kind: Kind, entries: MappingType[str, tuple[Scalar, Tree]], practice: str, say: Complaints,
    declared: bool = True, empty: Collection[str] = (),
) -> Node:
    """A node from its entries; what is missing or wrong is said."""
    known = {field.name: field for field in (*kind.fields, *SHARED)}
    given: dict[str, object] = {}
    places: dict[str, Place] = {}
    accept: dict[str, tuple[str, Place]] = {}
    for key, tree in entries.values():
        if key.text == "accept":
            accept = read_accept(tree, say)
        elif key.text not in known:
            say.unknown(key.place, f"field of {kind.name}", key.text, known)
        else:
            value = fields.read(tree, known[key.text], say)
            places[key.text] = tree.place
            if value is not None:
                given[key.text] = value
    _settle(given, places, known, kind, practice, say)
    _missing(name, place, kind, {*places, *empty}, say)
    return finish(name, place, kind, given, places, practice, declared, accept)


def finish(
    name: str, place: Place, kind: Kind, given: dict[str, object], places: MappingType[str, Place], practice: str,
    declared: bool, accept: MappingType[str, tuple[str, Place]],
) -> Node:
    defaults = {field.name: field.default for field in kind.fields if field.default is not None}
    values = Values({**defaults, **given}, practice)
    try:
        ports = kind.ports(values)
    except (KeyError, TypeError, ValueError):  # a required field is missing or wrong, and was said
        ports = ()
    return Node(name, kind, values, place, places, declared, ports, accept)


def _missing(name: str, place: Place, kind: Kind, places: Collection[str], say: Complaints) -> None:
    missing = [field for field in kind.fields if field.required and field.name not in places]
    if missing:
        words = (f"{field.name.capitalize()} is {listed(field.form.words, 'or')}." for field in missing if field.form.words)
        say(place, f"{kind.name} `{name}` needs {listed([field.name for field in missing])}", " ".join(words))
    for group in kind.either:
        if not any(field in places for field in group):
            say(place, f"{kind.name} `{name}` needs {listed(group, 'or')}")


def _settle(
    given: dict[str, object], places: MappingType[str, Place], known: MappingType[str, Field], kind: Kind,
    practice: str,
    say: Complaints,
) -> None:
    """A field of several dimensions is kept in its first: Wh become Ah, V/°C become %/°C, A become W."""
    for name, value in list(given.items()):
        if not isinstance(value, Measure):
            continue
        first = known[name].form.dimensions[0]
        base = _base(name, first, given) or (Values(given, practice).mains if _is_mains(known) else None)
        if value.dimension == first:
            given[name] = value.value
        elif base is None:
            del given[name]
            say(places[name], f"{name}: in this unit it can't be understood without one voltage",
                f"Write it in {DIMENSIONS[first][0]}.")
        else:
            given[name] = _FROM[value.dimension](value.value, base)


def _is_mains(known: MappingType[str, Field]) -> bool:
    """Whether the unsaid voltage of a node is that of the public supply."""
    return "phases" in known and "voltage" in known and not known["voltage"].required


_FROM = {
    "energy": lambda value, volts: value / volts,
    "charge": lambda value, volts: value * volts,
    "voltage drift": lambda value, volts: 100 * value / volts,
    "current": lambda value, volts: value * volts,
    "power": lambda value, volts: value / volts,
}


def _base(name: str, dimension: str, given: MappingType[str, object]) -> float | None:
    of = name.split()[0] if dimension == "drift" else "voltage"
    volts = given.get(of)
    return volts if isinstance(volts, (int, float)) and volts > 0 else None


def read_accept(tree: Tree, say: Complaints) -> dict[str, tuple[str, Place]]:
    """{rule: (reason, place)}; a reason is required."""
    if not isinstance(tree, Mapping):
        say(tree.place, "`accept` is {rule: reason}")
        return {}
    accepted = {}
    for key, value in tree:
        if not isinstance(value, Scalar) or not value.text.strip():
            say(value.place, f"accept: `{key.text}` needs a reason")
        else:
            accepted[key.text] = (value.text.strip(), key.place)
    return accepted
