"""From the text of a netlist to a System, or to every problem in it."""

from __future__ import annotations

import gc
from dataclasses import replace
from pathlib import Path

from diagrammer.kinds.kind import DURATION, NUMBER, TEMPERATURE, Field
from diagrammer.netlist import circuits, fields, nodes, parts, wires
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Circuit, Inside, Node, Site, System, Terminal
from diagrammer.text.finding import Problem
from diagrammer.text.parse import parse
from diagrammer.text.place import Place
from diagrammer.text.source import Source, source
from diagrammer.text.suggest import shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

KEYS = ("title", "practice", "site", "parts", "wire", "sheet", "nodes", "circuits", "interlocks", "states")
PRACTICES = ("abyc", "nec", "iso")
SITE = (
    Field("coldest", TEMPERATURE, least=-90, most=60), Field("hottest", TEMPERATURE, least=-50, most=90),
    Field("sun hours", replace(NUMBER, dimensions=("duration",)), least=0, most=24),
    Field("autonomy", DURATION, least=0),
)
SHEET = ("owner", "creator", "approved by", "number", "revision", "date", "language", "subtitle")


def read(text: str | Source, file: str = "netlist.yaml", folder: Path | None = None) -> tuple[System | None,
                                                                                              tuple[Problem, ...]]:
    """Read a netlist. `folder` is where its `parts` files are looked for.

    Returns the System and no problems, or None and every problem met.
    """
    collecting = gc.isenabled()
    gc.disable()  # everything read is kept: looking for rubbish among it takes half of the time
    try:
        return _read(text if isinstance(text, Source) else source(text, file), folder)
    finally:
        if collecting:
            gc.enable()


def _read(text: Source, folder: Path | None) -> tuple[System | None, tuple[Problem, ...]]:
    tree, problems = parse(text)
    say = Complaints()
    say.problems += problems
    if tree is None and not problems:
        say(Place(text.file, 1, 1, 1, 2), "the file is empty", "A netlist has `nodes` and `circuits`.")
    if tree is not None and not isinstance(tree, Mapping):
        say(tree.place, "a netlist has sections, `nodes:` and `circuits:`")
    system = _system(tree, text, folder, say) if isinstance(tree, Mapping) else None
    return (None, say.sorted) if say.problems else (system, ())


def _system(tree: Mapping, text: Source, folder: Path | None, say: Complaints) -> System:
    values = {key.text: value for key, value in tree}
    for key, _ in tree:
        if key.text not in KEYS:
            say.unknown(key.place, "section", key.text, KEYS)
    for key in ("nodes", "circuits"):
        if key not in values and key not in tree.empty:
            say(Place(text.file, 1, 1, 1, 2), f"there are no `{key}`", "A netlist has `nodes` and `circuits`.")
    practice = _practice(values.get("practice"), say)
    known = parts.read(values.get("parts"), folder, say)
    declared, unreadable = nodes.read(values.get("nodes"), practice, known, say)
    draft = Draft(practice, say, declared, unreadable=unreadable)
    circuits.read(draft, values.get("circuits"), wires.file_wire(values.get("wire"), say))
    return System(
        file=text.file, title=_title(values.get("title"), say), practice=practice, site=_site(values.get("site"), say),
        sheet=_texts(values.get("sheet"), SHEET, "sheet", say),
        nodes=draft.nodes, terminals=_terminals(draft), insides=_insides(draft), place=tree.place,
        circuits=tuple(_circuit(entry) for entry in draft.entries),
        conductors=tuple(one for entry in draft.entries for one in entry.conductors),
        joints=tuple(one for entry in draft.entries for one in entry.joints),
        runs={run.id: run for entry in draft.entries for run in entry.runs},
        interlocks=_interlocks(values.get("interlocks"), draft), states=_states(values.get("states"), draft),
    )


def _circuit(entry: Entry) -> Circuit:
    return Circuit(entry.name, entry.place, tuple(entry.legs), entry.note, entry.named, entry.accept)


def _title(tree: Tree | None, say: Complaints) -> str:
    if tree is None or isinstance(tree, Scalar):
        return tree.text.strip() if tree else ""
    say(tree.place, "`title` is a text")
    return ""


def _practice(tree: Tree | None, say: Complaints) -> str:
    word = tree.text if isinstance(tree, Scalar) else ""
    if tree is not None and word not in PRACTICES:
        say.unknown(tree.place, "practice", word, PRACTICES)
    return word if word in PRACTICES else "abyc"


def _site(tree: Tree | None, say: Complaints) -> Site:
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


def _texts(tree: Tree | None, known: tuple[str, ...], what: str, say: Complaints) -> dict[str, str]:
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


def _terminals(draft: Draft) -> dict[str, Terminal]:
    terminals: dict[str, Terminal] = {}
    for node in draft.nodes.values():
        for port in node.ports:
            if node.name in draft.in_ac and port.form == "contact":
                continue  # its contacts are those of the cores
            for local in port.terminals():
                name = node.terminal(local)
                terminals[name] = Terminal(name, node.name, port.name, _pole(port, local))
    terminals |= draft.cores
    for entry in draft.entries:
        for one in (*entry.conductors, *entry.joints):
            for end in (one.a, one.b):
                if end not in terminals:
                    draft.say(one.place, f"`{end}` stands in an ac circuit, too", "A device is either in ac or in dc.")
    return terminals


def _pole(port, local: str) -> str:
    if port.form in ("single", "contact"):
        return "earth" if port.name == "earth" else ""
    return {"plus": "+", "minus": "-"}.get(port.form) or local.split(".")[-1]


def _insides(draft: Draft) -> tuple[Inside, ...]:
    """What passes current inside the nodes, each on the side of the conductors that land there."""
    sides: dict[str, str] = {}
    for entry in draft.entries:
        for one in (*entry.conductors, *entry.joints):
            sides.setdefault(one.a, one.side)
            sides.setdefault(one.b, one.side)
    insides = []
    for node in draft.nodes.values():
        if node.name in draft.in_ac or not node.ports:
            continue
        for inner in node.kind.inside(node.values):
            a, b = node.terminal(inner.a), node.terminal(inner.b)
            side = sides.get(a) or sides.get(b) or ""
            core = inner.a.split(".")[-1] if side == "ac" else ""
            insides.append(Inside(node.name, a, b, inner.form, inner.positions, side, core))
    return (*insides, *draft.core_insides)


def _interlocks(tree: Tree | None, draft: Draft) -> tuple[tuple[str, ...], ...]:
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


def _states(tree: Tree | None, draft: Draft) -> dict[str, dict[str, str]]:
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
