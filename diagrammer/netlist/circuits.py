"""The `circuits` section: entries, then devices, then legs, then the returns that are derived."""

from __future__ import annotations

from collections.abc import Iterable

from diagrammer.kinds import DEVICES
from diagrammer.netlist import cables, devices, legs, returns, ways_back, wires
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Wire
from diagrammer.netlist.nodes import finish, read_accept
from diagrammer.netlist.path import Item, Path, parse
from diagrammer.netlist.stops import resolve
from diagrammer.text.suggest import listed
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

ROLES = ("feed", "return", "ac", "series", "bond")
KEYS = ("name", *ROLES, "wire", "accept", "note")


def read(draft: Draft, tree: Tree | None, base: Wire) -> None:
    """Fill the draft's entries, with their conductors and joints."""
    if tree is None:
        return
    if not isinstance(tree, Sequence):
        draft.say(tree.place, "`circuits` is a list: one entry `- {feed: ..., wire: ...}` a circuit")
        return
    for item in tree.items:
        if isinstance(item, Mapping):
            _entry(draft, item, base)
        else:
            draft.say(item.place, "a circuit is a mapping: `{feed: a -> b, wire: ...}`")
    _name_devices(draft)
    _name_circuits(draft.entries)
    for entry in draft.entries:
        _legs(draft, entry)
    wanted = ways_back.wanted(draft)
    for entry in draft.entries:
        if id(entry) in wanted:
            returns.derive(draft, entry, wanted[id(entry)])


def _entry(draft: Draft, tree: Mapping, base: Wire) -> None:
    values = {key.text: value for key, value in tree}
    for key, _ in tree:
        if key.text not in KEYS:
            draft.say.unknown(key.place, "entry of a circuit", key.text, KEYS)
    roles = [role for role in ROLES if role in values]
    _check_roles(draft, tree, roles)
    no_return = isinstance(values.get("return"), Scalar) and values["return"].text == "none"
    paths = {}
    for role in roles:
        if role == "return" and no_return:
            continue
        path = _path(draft, role, values[role])
        if path:
            paths[role] = path
    place = paths[roles[0]].place if roles and roles[0] in paths else tree.place
    entry = Entry(
        _text(draft, values, "name"), "name" in values, place, paths, wires.read(values.get("wire"), base, draft.say),
        _text(draft, values, "note"), no_return, read_accept(values["accept"], draft.say) if "accept" in values else {},
    )
    if entry.named and (not entry.name or ":" in entry.name or len(entry.name) > 80):
        draft.say(values["name"].place, "a circuit's name is a short text without a colon")
    if entry.named and any(other.named and other.name == entry.name for other in draft.entries):
        draft.say(values["name"].place, f"two circuits are named `{entry.name}`")
    draft.entries.append(entry)


def _check_roles(draft: Draft, tree: Mapping, roles: list[str]) -> None:
    if not roles:
        draft.say(tree.place, f"a circuit has one of {listed(ROLES, 'or')}")
    elif len(roles) > 1 and roles != ["feed", "return"]:
        draft.say(tree.place, f"{listed(roles)} in one circuit", "Only feed and return go together: make two circuits.")


def _path(draft: Draft, role: str, tree: Tree) -> Path | None:
    if not isinstance(tree, Scalar):
        draft.say(tree.place, f"`{role}` is a path: `a -> b`")
        return None
    return parse(tree, DEVICES, draft.say)


def _text(draft: Draft, values: dict[str, Tree], key: str) -> str:
    tree = values.get(key)
    if tree is not None and not isinstance(tree, Scalar):
        draft.say(tree.place, f"`{key}` is a text")
        return ""
    return tree.text.strip() if tree is not None else ""


def _written(draft: Draft) -> Iterable[Item]:
    """The devices written in paths, in file order."""
    for entry in draft.entries:
        for path in entry.paths.values():
            yield from (item for item in path.items if item.device)


def _name_devices(draft: Draft) -> None:
    """Make a node of each device: first those with a designation, so that no number is taken twice."""
    found = [(item, devices.read(item, draft.say)) for item in _written(draft)]
    names: dict[int, str] = {}
    for item, device in found:
        if not device.designation:
            continue
        if device.designation in draft.nodes or device.designation in names.values():
            draft.say(item.place, f"`{device.designation}` is the name of another node already",
                      "Write the designation alone where the same device is meant.")
        names[id(item)] = device.designation
    taken, last = {*draft.nodes, *names.values()}, {}
    for item, device in found:
        name = names.get(id(item)) or devices.numbered(device.kind.letter, taken, last)
        taken.add(name)
        draft.written[id(item)] = name
        draft.nodes[name] = finish(name, device.place, device.kind, device.given, device.places, draft.practice, False, {})


def _name_circuits(entries: list[Entry]) -> None:
    """Unnamed circuits are called by their ends."""
    taken = {entry.name for entry in entries if entry.named}
    for entry in entries:
        if entry.named or not entry.paths:
            continue
        items = next(iter(entry.paths.values())).items
        name, number = f"{items[0].name} to {items[-1].name}", 1
        entry.name = name
        while entry.name in taken:
            number += 1
            entry.name = f"{name} {number}"
        taken.add(entry.name)


def _legs(draft: Draft, entry: Entry) -> None:
    spec = entry.spec.feed or entry.spec
    for role, path in entry.paths.items():
        if role == "ac":
            cables.add(draft, entry, path, spec)
            continue
        stops = resolve(draft, role, path)
        if stops is None:
            continue
        own = spec
        if role == "return" and "feed" in entry.paths:
            own = returns.written(draft, entry, path)
        legs.add(draft, entry, role, path, stops, own)
