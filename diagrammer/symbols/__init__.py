"""Symbols of the drawing: one file a symbol, named as it, in a folder a family."""

from __future__ import annotations

from diagrammer.folder import Folder
from diagrammer.symbols import iec, ieee
from diagrammer.symbols.symbol import Symbol

FAMILIES: dict[str, Folder[Symbol]] = {
    family: Folder(package.__name__, package.__path__, "SYMBOL") for family, package in (("iec", iec), ("ieee", ieee))
}
SYMBOLS = FAMILIES["iec"]


def find(name: str, family: str = "iec") -> Symbol:
    """The symbol of that name: of the family, where its shape differs there, else IEC 60617's.

    Raises KeyError for a name or family that does not exist.
    """
    return FAMILIES[family].get(name) or SYMBOLS[name]
