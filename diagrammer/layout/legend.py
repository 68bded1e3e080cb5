"""The symbols that a drawing really uses, for its legend."""

from __future__ import annotations

from collections.abc import Sequence

from diagrammer.layout.scene import Shape
from diagrammer.symbols.symbol import Symbol


def used(shapes: Sequence[Shape]) -> tuple[Symbol, ...]:
    """Each symbol once, in the order of first use."""
    seen: dict[str, Symbol] = {}
    for shape in shapes:
        seen.setdefault(shape.symbol.name, shape.symbol)
    return tuple(seen.values())
