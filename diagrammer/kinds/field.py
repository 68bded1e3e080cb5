"""The fields of a node: what may be written in one, and the values as read."""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.frozen import frozen


@frozen
class Values(Mapping):
    """The fields of one node as read: quantities as floats in the unit of their dimension
    (see quantity.py), windows as (low, high), words as str, yes/no as bool, counts as int."""

    given: Mapping[str, object]
    practice: str = "abyc"

    def __getitem__(self, name: str) -> object:
        return self.given[name]

    def __iter__(self):
        return iter(self.given)

    def __len__(self) -> int:
        return len(self.given)

    @property
    def grid(self) -> float:
        """[V] line to neutral of the public supply where the practice is used (IEC 60038)."""
        return 230.0 if self.practice == "iso" else 120.0

    @property
    def mains(self) -> float:
        """[V] line to neutral of an ac node: its own, else that of the public supply."""
        return self.get("voltage") or self.grid


@frozen
class Form:
    """What may be written in a field.

    `sort` is one of: quantity, window (a quantity or `LOW .. HIGH`), word, yes/no, count (whole
    number from 1), number (without a unit), text, node (a node's name), nodes (a list of names),
    ports (of the kind `other`), positions (of the multi-way switches).
    `ports` are read as {name: "dc", "lead" or "ac"}, `positions` as {position: groups}, each
    group a tuple of the terminals' names that are joined: {"off": (), "1": (("1", "common"),)}.
    """

    sort: str
    dimensions: tuple[str, ...] = ()  # names of quantity.DIMENSIONS
    words: tuple[str, ...] = ()


def quantity(*dimensions: str) -> Form:
    return Form("quantity", dimensions)


def window(*dimensions: str) -> Form:
    return Form("window", dimensions)


def word(*words: str) -> Form:
    return Form("word", words=words)


YES_NO, COUNT, NUMBER, TEXT, NODE, NODES, PORTS, POSITIONS = (
    Form(sort) for sort in ("yes/no", "count", "number", "text", "node", "nodes", "ports", "positions")
)
VOLTAGE, CURRENT, POWER, DURATION = (quantity(d) for d in ("voltage", "current", "power", "duration"))
RESISTANCE, TEMPERATURE, LENGTH, SHARE = (quantity(d) for d in ("resistance", "temperature", "length", "share"))
FREQUENCY = quantity("frequency")


@frozen
class Field:
    """One field of a kind. `least` and `most` bound a quantity, in the dimension's unit; it is more than `above`."""

    name: str
    form: Form
    required: bool = False
    default: object = None
    says: str = ""
    least: float | None = None
    most: float | None = None
    above: float | None = None


SHARED = (
    Field("label", TEXT, says="what the drawing writes instead of the name"),
    Field("note", TEXT, says="a remark for the install notes"),
    Field("part", TEXT, says="a named part of the workshop's own list, whose fields are taken over"),
    Field("accept", TEXT, says="findings accepted here, each with the reason"),
)
