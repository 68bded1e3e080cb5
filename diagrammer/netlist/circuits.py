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
from diagrammer.text.suggest import listed, shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

ROLES = ("feed", "return", "ac", "series", "bond")
KEYS = ("name", *ROLES, "wire", "accept", "note")


def read(draft: Draft, tree: Tree | None, base: Wire) -> None:
    """Fill the draft's entries, with their conductors and joints."""
    if tree is None:
        return
    if not isinstance(tree, Sequence):
        draft.say(tree.place, "`circuits` is a list: one line `- {feed: ..., wire: ...}` a circuit")
        return
    named: set[str] = set()
    for item in tree.items:
        if isinstance(item, Mapping):
            draft.entries.append(_entry(draft, item, base))
            _check_name(draft, item, draft.entries[-1], named)
        else:
            draft.say(item.place, "a circuit is written with its entries: `{feed: a -> b, wire: ...}`")
    _name_devices(draft)
    _name_circuits(draft.entries)
    for entry in draft.entries:
        _legs(draft, entry)
    wanted = ways_back.wanted(draft)
    for entry in draft.entries:
        if id(entry) in wanted:
            returns.derive(draft, entry, wanted[id(entry)])


def _entry(draft: Draft, tree: Mapping, base: Wire) -> Entry:
    values = {key.text: value for key, value in tree}
    for key, _ in tree:
        if key.text not in KEYS:
            draft.say.unknown(key.place, "entry of a circuit", key.text, KEYS)
    roles = [role for role in ROLES if role in values or role in tree.empty]
    no_return = isinstance(values.get("return"), Scalar) and values["return"].text.strip() == "none"
    _check_roles(draft, tree, roles, no_return)
    paths = {}
    for role in roles:
        path = None if role in tree.empty or (role == "return" and no_return) else _path(draft, role, values[role])
        if path:
            paths[role] = path
    spec = wires.read(values.get("wire"), base, draft.say)
    _check_wire(draft, roles, spec)
    return Entry(
        _text(draft, values, "name"), "name" in values,
        paths[roles[0]].place if roles and roles[0] in paths else tree.place,
        paths, spec, _text(draft, values, "note"), no_return,
        read_accept(values["accept"], draft.say) if "accept" in values else {},
    )


def _check_roles(draft: Draft, tree: Mapping, roles: list[str], no_return: bool) -> None:
    if not roles:
        draft.say(tree.place, f"a circuit has one of {listed(ROLES, 'or')}")
    elif len(roles) > 1 and roles != ["feed", "return"]:
        draft.say(tree.place, f"{listed(roles)} in one circuit", "Only feed and return go together: make two circuits.")
    elif roles == ["return"] and no_return:
        draft.say(tree.place, "a return of none without a feed is no circuit")


def _check_wire(draft: Draft, roles: list[str], spec: wires.Spec) -> None:
    """What is said of a wire that the circuit can't have."""
    if spec.feed and "feed" not in roles:
        draft.say(spec.place, "`feed` and `return` of a wire, in a circuit without a feed",
                  "Write the wire without them.")
    if (spec.cores or spec.earth) and roles and roles[0] != "ac":
        draft.say(spec.place, f"`cores` and `earth` are of an ac cable; this circuit is a {roles[0]}")


def _check_name(draft: Draft, tree: Mapping, entry: Entry, named: set[str]) -> None:
    if not entry.named:
        return
    place = tree.get("name").place
    if not entry.name or ":" in entry.name or len(entry.name) > 80:
        draft.say(place, "a circuit's name is a short text without a colon")
    if entry.name in named:
        draft.say(place, f"two circuits are named `{shortened(entry.name)}`", "Give one another name.")
    named.add(entry.name)


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
    taken = set(draft.nodes)
    for item, device in found:
        if device.designation in taken:
            draft.say(item.place, f"`{device.designation}` is the name of another node already",
                      "Write the designation alone where the same device is meant.")
        elif device.designation:
            taken.add(device.designation)
    last: dict[str, int] = {}
    for item, device in found:
        name = device.designation or devices.numbered(device.kind.letter, taken, last)
        taken.add(name)
        if not device.designation:
            draft.numbered.add(name)
        draft.written[id(item)] = name
        draft.nodes[name] = finish(name, device.place, device.kind, device.given, device.places, draft.practice, False,
                                   {})


def _name_circuits(entries: list[Entry]) -> None:
    """Unnamed circuits are called by their ends, numbered where that is the same."""
    taken = {entry.name for entry in entries if entry.named}
    last: dict[str, int] = {}
    for entry in entries:
        if entry.named or not entry.paths:
            continue
        items = next(iter(entry.paths.values())).items
        ends = f"{items[0].name} to {items[-1].name}"
        number = last.get(ends, 0) + 1
        while _numbered(ends, number) in taken:
            number += 1
        last[ends], entry.name = number, _numbered(ends, number)
        taken.add(entry.name)


def _numbered(ends: str, number: int) -> str:
    return ends if number == 1 else f"{ends} {number}"


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
