"""What a wire is made of and where it runs: its own entries, and those that hold for the whole file."""

from __future__ import annotations

import re
from dataclasses import replace

from diagrammer import quantity
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.model import Wire
from diagrammer.text.suggest import listed
from diagrammer.text.tree import Mapping, Scalar, Sequence, Tree

PLACES = (*Wire.SHEATHS, "air", "panel", "engine-space", "bilge", "free")
LEAST_MARK = 60  # [°C] NEC 110.14(C)(1)(a)
MATERIALS = ("copper", "tinned", "aluminium")


def size(tree: Tree | None, say: Complaints) -> quantity.Size | None:
    if tree is None:
        return None
    try:
        return quantity.size(tree.text if isinstance(tree, Scalar) else "")
    except quantity.Unreadable as wrong:
        say(tree.place, str(wrong))
        return None


def of_wire(values: dict[str, Tree], say: Complaints) -> dict[str, object]:
    """What a mapping says of the conductor itself, by the names of model.Wire."""
    found: dict[str, object] = {}
    found_size = size(values.get("size"), say)
    if found_size:
        found["size"] = found_size
    for key, name, convert in _PLAIN:
        tree = values.get(key)
        if tree is None:
            continue
        try:
            found[name] = convert(tree)
        except (ValueError, AttributeError) as wrong:
            say(tree.place,
                f"{key}: {wrong}" if str(wrong) and isinstance(tree, Scalar) else f"{key}: one value is wanted")
    return found


def _degrees(tree: Tree) -> float:
    value = quantity.measure(tree.text, "temperature").value
    if not -80 <= value <= 400:
        raise ValueError(f"`{tree.text}` is out of range")
    return value


def _marked(tree: Tree) -> float:
    """What terminals are marked for: there is none below the lowest column of NEC Table 310.16."""
    if (value := _degrees(tree)) < LEAST_MARK:
        raise ValueError(f"`{tree.text}` is out of range: terminals bear {LEAST_MARK} °C at least")
    return value


def _whole(tree: Tree) -> int:
    if not re.fullmatch(r"[0-9]{1,3}", tree.text) or int(tree.text) < 1:
        raise ValueError(f"`{tree.text}`: a whole number from 1 is wanted")
    return int(tree.text)


def _among(*words: str):
    def convert(tree: Tree) -> str:
        if tree.text not in words:
            raise ValueError(f"`{tree.text}` is not one of {listed(words)}")
        return tree.text
    return convert


def _where(tree: Tree) -> tuple[str, ...]:
    return tuple(_among(*PLACES)(word) for word in _words(tree))


def _words(tree: Tree):
    """The words of a text or a list as scalars."""
    if isinstance(tree, Sequence):
        return tree.items
    return [replace(tree, text=word) for word in tree.text.split()]


_PLAIN = (
    ("parallel", "parallel", _whole),
    ("insulation", "insulation", _degrees),
    ("material", "material", _among(*MATERIALS)),
    ("in", "inside", _where),
    ("bundle", "bundle", _whole),
    ("ambient", "ambient", _degrees),
    ("terminals", "terminals", lambda tree: tree.text),
    ("terminations", "terminations", _marked),
)


def file_wire(tree: Tree | None, say: Complaints) -> Wire:
    """The wire that holds for every circuit which says nothing else."""
    if tree is None:
        return Wire()
    if not isinstance(tree, Mapping):
        say(tree.place, "`wire` of the whole file has entries, such as {insulation: 105 °C}")
        return Wire()
    allowed = tuple(name for name, _, _ in _PLAIN) + ("size",)
    for key, _ in tree:
        if key.text not in allowed:
            say.unknown(key.place, "entry of the file's wire", key.text, allowed)
    return Wire(**of_wire({key.text: value for key, value in tree if key.text in allowed}, say))
