"""A device written in a path, `fuse class-t 250 A 20 kA F3`, becomes fields of a node."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import field

from diagrammer import quantity
from diagrammer.frozen import changing
from diagrammer.kinds import KINDS
from diagrammer.kinds.breaker import CURRENTS
from diagrammer.kinds.kind import Field, Kind
from diagrammer.netlist import fields
from diagrammer.netlist.complaints import Complaints
from diagrammer.netlist.path import NAME, Item, Word
from diagrammer.text.place import Place
from diagrammer.text.suggest import a, did_you_mean, listed, shortened

POLES = re.compile(r"([1-4])-pole")
# by the unit in which it is written: the field meant, and the field's dimension
_BY_UNIT = {"mA": "residual", "kA": "breaking", "A": "rating", "V": "voltage", "kV": "voltage",
            "Ω": "resistance", "mΩ": "resistance", "ohm": "resistance", "W": "power", "kW": "power"}


@changing
class Written:
    """A device as read: its designation ("" where it has none), kind, fields and their places."""

    kind: Kind
    place: Place
    designation: str = ""
    given: dict[str, object] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)


def read(item: Item, say: Complaints) -> Written:
    kind = KINDS[item.name]
    written = Written(kind, item.place)
    for word in _joined(item.words):
        _take(word, written, say)
    missing = [field.name for field in kind.fields if field.required and field.name not in written.given]
    if missing:
        say(item.place, f"{a(kind.name)} needs {listed(missing)}")
    return written


def _joined(words: tuple[Word, ...]) -> list[Word]:
    """Words, with a number and the unit behind it made one: "250 A"."""
    joined: list[Word] = []
    for word in words:
        last = joined[-1] if joined else None
        if last and re.fullmatch(r"[0-9.]+", last.text) and not word.text[0].isdigit():
            joined[-1] = Word(f"{last.text} {word.text}", last.place.to(word.place))
        else:
            joined.append(word)
    return joined


def _take(word: Word, written: Written, say: Complaints) -> None:
    text, kind = word.text, written.kind
    poles = POLES.fullmatch(text)
    if poles:
        _give(written, "poles", int(poles[1]), word, say)
    elif re.match(r"[0-9.]", text) and not text.endswith("pole"):
        _quantity(word, written, say)
    elif text in kind.words:
        _word(word, written, say)
    elif is_designation(text, kind):
        if written.designation:
            say(word.place, f"a second designation; the device is `{written.designation}` already")
        written.designation = text
    else:
        known = (*kind.words, "1-pole", "2-pole", "3-pole", "4-pole")
        words = f"Its words are {listed(known)}; a designation is {kind.letter}1 or {kind.letter}-name."
        say(word.place, f"`{shortened(text)}` says nothing of {a(kind.name)}", did_you_mean(text, known) or words)


def is_designation(text: str, kind: Kind) -> bool:
    tail = text.removeprefix(kind.letter)
    return tail != text and bool(re.fullmatch(r"[0-9]{1,6}", tail) or (tail[:1] == "-" and NAME.fullmatch(tail[1:])))


def _word(word: Word, written: Written, say: Complaints) -> None:
    """A yes/no field's own name sets it; another word is the type, beside which a breaker's current may stand."""
    fields = {one.name: one for one in written.kind.fields}
    if word.text in fields and fields[word.text].form.sort == "yes/no":
        _give(written, word.text, True, word, say)
    elif (word.text in CURRENTS) != (written.given.get("type", word.text) in CURRENTS):
        written.given["type"] = f"{written.given['type']} {word.text}"
    else:
        _give(written, "type", word.text, word, say)


def _quantity(word: Word, written: Written, say: Complaints) -> None:
    try:
        measure = quantity.measure(word.text, "current", "voltage", "resistance", "power")
    except quantity.Unreadable as wrong:
        say(word.place, str(wrong))
        return
    unit = re.sub(r"^[0-9.]+\s*", "", word.text)
    name = _BY_UNIT.get(unit, "")
    if name == "residual" and not _field(written.kind, "residual"):
        name = "rating"
    if not _field(written.kind, name):
        say(word.place, f"`{word.text}` says nothing of {a(written.kind.name)}",
            "A is its rating, kA what it can break, V its voltage.")
        return
    try:
        fields.within(measure.value, _field(written.kind, name), word.text)
    except fields.Unfit as wrong:
        say(word.place, f"{name}: {wrong}")
    _give(written, name, measure.value, word, say)


def _field(kind: Kind, name: str) -> Field | None:
    return next((field for field in kind.fields if field.name == name), None)


def _give(written: Written, name: str, value: object, word: Word, say: Complaints) -> None:
    if name in written.given:
        say(word.place, f"`{word.text}`: its {name} is given already")
    written.given[name] = value
    written.places[name] = word.place


def numbered(letter: str, taken: Collection[str], last: dict[str, int]) -> str:
    """The next free designation of a letter: F1, F2 ..."""
    number = last.get(letter, 0) + 1
    while f"{letter}{number}" in taken:
        number += 1
    last[letter] = number
    return f"{letter}{number}"
