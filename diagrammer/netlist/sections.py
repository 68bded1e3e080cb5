"""The small sections of a netlist: title, practice, site, sheet, interlocks, states."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.kinds.kind import DURATION, NUMBER, TEMPERATURE, Field
from diagrammer.netlist import fields
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.draft import Draft
from diagrammer.netlist.model import Node, Site
from diagrammer.text.suggest import shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

PRACTICES = ("abyc", "nec", "iso")
SITE = (
    Field("coldest", TEMPERATURE, least=-90, most=60), Field("hottest", TEMPERATURE, least=-50, most=90),
    Field("sun hours", replace(NUMBER, dimensions=("duration",)), least=0, most=24),
    Field("autonomy", DURATION, least=0),
)
SHEET = ("owner", "creator", "approved by", "number", "revision", "date", "language", "subtitle")


def title(tree: Tree | None, say: Complaints) -> str:
    if tree is None or isinstance(tree, Scalar):
        return tree.text.strip() if tree else ""
    say(tree.place, "`title` is a text")
    return ""


def practice(tree: Tree | None, say: Complaints) -> str:
    word = tree.text if isinstance(tree, Scalar) else ""
    if tree is not None and word not in PRACTICES:
        say.unknown(tree.place, "practice", word, PRACTICES)
    return word if word in PRACTICES else "abyc"


def site(tree: Tree | None, say: Complaints) -> Site:
    if tree is None:
        return Site()
    if not isinstance(tree, Mapping):
        say(tree.place, "`site` has entries: {coldest: -10 °C, hottest: 40 °C, sun hours: 4, autonomy: 2 days}")
        return Site()
    known, found = {field.name: field for field in SITE}, {}
    for key, value in tree:
        if key.text not in known:
            say.unknown(key.place, "entry of the site", key.text, known)
        else:
            found[key.text.replace(" ", "_")] = fields.read(value, known[key.text], say)
    site = Site(**found)
    if site.coldest is not None and site.hottest is not None and site.coldest > site.hottest:
        say(tree.place, "the coldest day is warmer than the hottest")
    return site


def texts(tree: Tree | None, known: tuple[str, ...], what: str, say: Complaints) -> dict[str, str]:
    if tree is None:
        return {}
    if not isinstance(tree, Mapping):
        say(tree.place, f"`{what}` has entries: {{{known[0]}: ..., {known[1]}: ...}}")
        return {}
    texts = {}
    for key, value in tree:
        if key.text not in known:
            say.unknown(key.place, f"entry of `{what}`", key.text, known)
        elif not isinstance(value, Scalar):
            say(value.place, f"`{key.text}` is a text")
        else:
            texts[key.text] = value.text.strip()
    return texts


def interlocks(tree: Tree | None, draft: Draft) -> tuple[tuple[str, ...], ...]:
    if tree is None:
        return ()
    if not isinstance(tree, Sequence) or not all(isinstance(item, Sequence) for item in tree.items):
        draft.say(tree.place, "`interlocks` is a list of lists: [[Q-shore, Q-generator]]")
        return ()
    for group in tree.items:
        for item in group.items:
            if _known(draft, item) and not _opens(draft.nodes[item.text]):
                kind = draft.nodes[item.text].kind.name
                draft.say(item.place, f"`{item.text}` ({kind}) has no contact that an interlock could hold open")
        if len({item.text for item in group.items if isinstance(item, Scalar)}) < 2:
            draft.say(group.place, "an interlock is between two devices or more")
    return tuple(tuple(item.text for item in group.items if isinstance(item, Scalar)) for group in tree.items)


def _opens(node: Node) -> bool:
    forms = {inner.form for inner in node.kind.inside(node.values)} if node.ports else {"contact"}
    return bool(forms & {"contact", "overcurrent"})


def _known(draft: Draft, item: Tree) -> bool:
    name = item.text if isinstance(item, Scalar) else ""
    if name not in draft.nodes and name not in draft.unreadable:
        draft.say.unknown(item.place, "node", name, draft.nodes)
    return name in draft.nodes


def states(tree: Tree | None, draft: Draft) -> dict[str, dict[str, str]]:
    if tree is None:
        return {}
    if not isinstance(tree, Mapping):
        draft.say(tree.place, "`states` has entries: {at anchor: {selector: 2, kettle: off}}")
        return {}
    states = {}
    for key, value in tree:
        if not isinstance(value, Mapping):
            draft.say(value.place,
                      f"state `{shortened(key.text)}` names nodes and positions: {{selector: 2, kettle: off}}")
            continue
        states[key.text] = {}
        for node, position in value:
            _known(draft, node)
            _position(draft, node.text, position)
            states[key.text][node.text] = position.text if isinstance(position, Scalar) else ""
    return states


def _position(draft: Draft, name: str, tree: Tree) -> None:
    node = draft.nodes.get(name)
    if node is None:
        return
    known = tuple(dict.fromkeys((*node.kind.positions(node.values), "on", "off")))
    word = tree.text if isinstance(tree, Scalar) else ""
    if word not in known:
        draft.say.unknown(tree.place, f"position of `{name}`", word, known)
