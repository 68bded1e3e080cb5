"""The text of a path becomes items and joints, each with its place.

    path = item joint item { joint item }        joint = " -> " | "/"
    item = NAME [ "." PORT ] [ "." TERMINAL ] [ "@" STUD ]  |  DEVICE { word }
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass

from diagrammer.netlist.complaints import Complaints
from diagrammer.text.place import Place
from diagrammer.text.suggest import nearest
from diagrammer.text.tree import Scalar

NAME = re.compile(r"\w(?:[\w-]*\w)?")
_JOINT = re.compile(r"\s*(->|/)\s*")
_PLACE = re.compile(r"([^\s.@]+)((?:\.[^\s.@]+)*)(?:@([\w-]+))?")


@dataclass(frozen=True)
class Word:
    text: str
    place: Place


@dataclass(frozen=True)
class Item:
    """A place (name, parts after dots, stud) or a device (its words)."""

    name: str
    place: Place
    named: Place  # of the name alone
    parts: tuple[Word, ...] = ()
    stud: str = ""
    words: tuple[Word, ...] = ()
    device: bool = False


@dataclass(frozen=True)
class Path:
    items: tuple[Item, ...]
    joints: tuple[str, ...]  # "->" or "/", one between each two items
    place: Place

    @property
    def wires(self) -> int:
        return self.joints.count("->")


def parse(scalar: Scalar, devices: Collection[str], say: Complaints) -> Path | None:
    """The path written in a scalar, or None with what is wrong said."""
    items: list[Item | None] = []
    joints: list[str] = []
    start = 0
    for joint in _JOINT.finditer(scalar.text):
        items.append(_item(scalar, start, joint.start(), devices, say))
        joints.append(joint[1])
        start = joint.end()
    items.append(_item(scalar, start, len(scalar.text), devices, say))
    if any(item is None for item in items):
        return None
    if not joints:
        say(scalar.place, f"`{scalar.text}` is one place; a path joins two or more", "Write `a -> b`.")
        return None
    ends = [item for item in (items[0], items[-1]) if item.device]
    for item in ends:
        say(item.place, f"a path begins and ends on a place, not on a {item.name}",
            "Give it a designation and write its contact, or name what it leads to.")
    return None if ends else Path(tuple(items), tuple(joints), scalar.place)


def _item(scalar: Scalar, start: int, end: int, devices: Collection[str], say: Complaints) -> Item | None:
    text = scalar.text[start:end]
    stripped = text.strip()
    if not stripped:
        say(scalar.part(max(0, start - 1), start), "a path that ends in the air", "Name a place before and after each joint.")
        return None
    start += len(text) - len(text.lstrip())
    place = scalar.part(start, start + len(stripped))
    words = tuple(Word(w.group(), scalar.part(start + w.start(), start + w.end())) for w in re.finditer(r"\S+", stripped))
    if words[0].text in devices:
        return Item(words[0].text, place, words[0].place, words=words[1:], device=True)
    if len(words) > 1:
        near = nearest(words[0].text, devices)
        say(place, f"`{stripped}` is neither a place nor a device",
            f"Did you mean `{near[0]}`?" if near else "A place is one word; a joint `->` or `/` parts it from the next.")
        return None
    found = _PLACE.fullmatch(stripped)
    if not found:
        say(place, f"`{stripped}` can't be read as a place", "A place is NAME, NAME.port, NAME.port.terminal or NAME@stud.")
        return None
    parts, at = [], start + len(found[1])
    for part in found[2].split(".")[1:]:
        parts.append(Word(part, scalar.part(at + 1, at + 1 + len(part))))
        at += 1 + len(part)
    return Item(found[1], place, scalar.part(start, start + len(found[1])), tuple(parts), found[3] or "")
