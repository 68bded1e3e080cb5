"""Named parts kept by a workshop in files of their own, below the netlist's folder."""

from __future__ import annotations

from pathlib import Path

from diagrammer.netlist.complaints import Complaints
from diagrammer.text.finding import Problem
from diagrammer.text.parse import parse
from diagrammer.text.source import LIMIT, decode
from diagrammer.text.suggest import shortened
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

MOST = 50  # files


def read(tree: Tree | None, folder: Path | None, say: Complaints) -> dict[str, Mapping]:
    """Parts by name, from every file that `parts` lists; a later file wins over an earlier one."""
    if tree is None:
        return {}
    if not isinstance(tree,
                      Sequence) or not all(isinstance(item, Scalar) for item in tree.items) or len(tree.items) > MOST:
        say(tree.place, "`parts` is a list of files: [workshop-parts.yaml]")
        return {}
    known: dict[str, Mapping] = {}
    for item in tree.items:
        known.update(_file(item, folder, say))
    return known


def _file(item: Scalar, folder: Path | None, say: Complaints) -> dict[str, Mapping]:
    path = _inside(item, folder, say)
    if path is None:
        return {}
    try:
        with path.open("rb") as file:
            data = file.read(LIMIT + 1)
    except OSError as error:
        say(item.place, f"`{shortened(item.text)}` can't be read: {error.strerror or error}")
        return {}
    text = decode(data, str(folder / item.text))
    if isinstance(text, Problem):
        say(text.at, text.message, text.help)
        return {}
    tree, problems = parse(text)
    say.problems += problems
    if not isinstance(tree, Mapping):
        say(item.place, f"`{shortened(item.text)}` holds no parts",
            "A parts file is `name: {kind: ..., ...}`, one entry a part.")
        return {}
    for key, value in tree:
        if not isinstance(value, Mapping):
            say(value.place, f"part `{shortened(key.text)}` is written with its fields: `{{kind: ..., ...}}`")
        elif value.key("part"):
            say(value.key("part").place, f"part `{shortened(key.text)}` is made of another part",
                "Write its fields out.")
    return {key.text: value for key, value in tree if isinstance(value, Mapping)}


def _inside(item: Scalar, folder: Path | None, say: Complaints) -> Path | None:
    """The path of a parts file; it must stay below the netlist's own folder."""
    if folder is None:
        say(item.place, "a parts file can't be found: the netlist has no folder")
        return None
    base = folder.resolve()
    try:
        path = (base / item.text).resolve()
        outside = Path(item.text).is_absolute() or not path.is_relative_to(base)
    except (OSError, ValueError, RuntimeError):
        say(item.place, f"`{shortened(item.text)}` is no path of a file")
        return None
    if outside:
        say(item.place, f"`{shortened(item.text)}` leaves the netlist's own folder", "Keep parts files below it.")
        return None
    return path
