"""Symbols of the drawing: one file a symbol, in a folder a family; the folders are walked, no list is edited."""

from __future__ import annotations

import pkgutil
from importlib import import_module

from diagrammer.symbols import iec, ieee
from diagrammer.symbols.symbol import Symbol


def _family(package) -> dict[str, Symbol]:
    modules = (import_module(f"{package.__name__}.{m.name}") for m in pkgutil.iter_modules(package.__path__))
    return {m.SYMBOL.name: m.SYMBOL for m in sorted(modules, key=lambda module: module.__name__)}


FAMILIES: dict[str, dict[str, Symbol]] = {"iec": _family(iec), "ieee": _family(ieee)}
SYMBOLS: dict[str, Symbol] = FAMILIES["iec"]


def find(name: str, family: str = "iec") -> Symbol:
    """The symbol of that name: of the family, where its shape differs there, else IEC 60617's.

    Raises KeyError for a name or family that does not exist.
    """
    return FAMILIES[family].get(name) or SYMBOLS[name]
