"""The text of a path becomes items and joints, each with its place.

    path = item joint item { joint item }        joint = " -> " | "/"
    item = NAME [ "." PORT ] [ "." TERMINAL ] [ "@" STUD ]  |  DEVICE { word }
"""

from __future__ import annotations

import re
from collections.abc import Collection

from diagrammer.frozen import frozen
from diagrammer.netlist.complaints import Complaints
from diagrammer.text.place import Place
from diagrammer.text.suggest import a, nearest, shortened
from diagrammer.text.tree import Scalar

NAME = re.compile(r"\w(?:[\w-]*\w)?")
_JOINT = re.compile(r"->|/")
_SIGN = re.compile(r"[-=<>~|+–—→⇒➔➜]+")  # what people write for a joint
_PLACE = re.compile(r"([^\s.@]+)((?:\.[^\s.@]+)*)(?:@([\w-]+))?")


@frozen
class Word:
    text: str
    place: Place


@frozen
class Item:
    """A place (name, parts after dots, stud) or a device (its words)."""

    name: str
    place: Place
    named: Place  # of the name alone
    parts: tuple[Word, ...] = ()
    stud: str = ""
    words: tuple[Word, ...] = ()
    device: bool = False


@frozen
class Path:
    items: tuple[Item, ...]
    joints: tuple[str, ...]  # "->" or "/", one between each two items
    place: Place

    @property
    def wires(self) -> int:
        return self.joints.count("->")


def parse(scalar: Scalar, devices: Collection[str], say: Complaints) -> Path | None:
    """The path written in a scalar, or None with what is wrong said."""
    found = list(_JOINT.finditer(scalar.text))
    starts, ends = [0, *(joint.end() for joint in found)], [*(joint.start() for joint in found), len(scalar.text)]
    items = [_item(scalar, start, end, devices, say)
             for start, end in zip(starts, ends, strict=True) if scalar.text[start:end].strip()]
    if len(items) <= len(found) and found:
        _in_the_air(scalar, found, say)
        return None
    if None in items:
        return None
    if not found:
        say(scalar.place, f"`{shortened(scalar.text)}` is one place; a path joins two or more", "Write `a -> b`.")
        return None
    devices_at_ends = [item for item in (items[0], items[-1]) if item.device]
    for item in devices_at_ends:
        say(item.place, f"a path begins and ends on a place, not on {a(item.name)}", "Name the place that it leads to.")
    return None if devices_at_ends else Path(tuple(items), tuple(joint[0] for joint in found), scalar.place)


def _in_the_air(scalar: Scalar, joints: list[re.Match], say: Complaints) -> None:
    """The first joint that has nothing on one of its sides."""
    text, before = scalar.text, 0
    for joint, after in zip(joints, [*(joint.start() for joint in joints[1:]), len(text)], strict=True):
        for side, stretch in (("before", text[before : joint.start()]), ("after", text[joint.end() : after])):
            if not stretch.strip():
                say(scalar.part(joint.start(), joint.end()),
                    f"a path that ends in the air: nothing stands {side} this `{joint[0]}`",
                    "Name a place on each side of a joint.")
                return
        before = joint.end()


def _item(scalar: Scalar, start: int, end: int, devices: Collection[str], say: Complaints) -> Item | None:
    text = scalar.text[start:end]
    stripped = text.strip()
    start += len(text) - len(text.lstrip())
    place = scalar.part(start, start + len(stripped))
    words = tuple(Word(w.group(), scalar.part(start + w.start(), start + w.end()))
                  for w in re.finditer(r"\S+", stripped))
    if words[0].text in devices:
        return Item(words[0].text, place, words[0].place, words=words[1:], device=True)
    if len(words) > 1:
        say(place, f"`{shortened(stripped)}` is neither a place nor a device", _advice(words, devices))
        return None
    found = _PLACE.fullmatch(stripped)
    if not found:
        say(place, f"`{shortened(stripped)}` can't be read as a place",
            "A place is NAME, NAME.port, NAME.port.terminal or NAME@stud.")
        return None
    parts, at = [], start + len(found[1])
    for part in found[2].split(".")[1:]:
        parts.append(Word(part, scalar.part(at + 1, at + 1 + len(part))))
        at += 1 + len(part)
    return Item(found[1], place, scalar.part(start, start + len(found[1])), tuple(parts), found[3] or "")


def _advice(words: tuple[Word, ...], devices: Collection[str]) -> str:
    if any(_SIGN.fullmatch(word.text) for word in words):
        return "A conductor is written `->`, a bolted joint `/`."
    near = nearest(words[0].text, devices)
    if near:
        return f"Did you mean `{near[0]}`?"
    return "A place is one word; a joint `->` or `/` parts it from the next."
