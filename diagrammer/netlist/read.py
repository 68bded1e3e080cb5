"""From the text of a netlist to a System, or to every problem in it."""

from __future__ import annotations

import gc
from pathlib import Path

from diagrammer.netlist import circuits, nodes, parts, sections
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.draft import Draft, Entry
from diagrammer.netlist.model import Circuit, Inside, System, Terminal
from diagrammer.netlist.wire_fields import file_wire
from diagrammer.text.finding import Problem
from diagrammer.text.parse import parse
from diagrammer.text.place import Place
from diagrammer.text.source import Source, source
from diagrammer.text.tree import Mapping

KEYS = ("title", "practice", "site", "parts", "wire", "sheet", "nodes", "circuits", "interlocks", "states")


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
    practice = sections.practice(values.get("practice"), say)
    known = parts.read(values.get("parts"), folder, say)
    declared, unreadable = nodes.read(values.get("nodes"), practice, known, say)
    draft = Draft(practice, say, declared, unreadable=unreadable)
    circuits.read(draft, values.get("circuits"), file_wire(values.get("wire"), say))
    return System(
        file=text.file, title=sections.title(values.get("title"), say), practice=practice, site=sections.site(values.get("site"), say),
        sheet=sections.texts(values.get("sheet"), sections.SHEET, "sheet", say),
        nodes=draft.nodes, terminals=_terminals(draft), insides=_insides(draft), place=tree.place,
        circuits=tuple(_circuit(entry) for entry in draft.entries),
        conductors=tuple(one for entry in draft.entries for one in entry.conductors),
        joints=tuple(one for entry in draft.entries for one in entry.joints),
        runs={run.id: run for entry in draft.entries for run in entry.runs},
        interlocks=sections.interlocks(values.get("interlocks"), draft), states=sections.states(values.get("states"), draft),
    )


def _circuit(entry: Entry) -> Circuit:
    return Circuit(entry.name, entry.place, tuple(entry.legs), entry.note, entry.named, entry.spec.imperial, entry.accept)


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
