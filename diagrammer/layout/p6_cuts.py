"""Sixth phase, cuts: which sub blocks of a piece might stand apart."""

from __future__ import annotations

from diagrammer.layout.p6_pages import Piece
from diagrammer.layout.scene import Box


def cuts(
    sizes: dict[int, tuple[float, float, str]], piece: Piece, area: Box, done: set[int],
) -> list[tuple[int, ...]]:
    """Sub blocks that might stand apart, the best first: the smallest that cures the width; if none
    does, as many of the widest as do together; else the highest."""
    left = {index: size for index, size in sizes.items() if index not in done and size[0] * size[1] > 900}
    for last in (("bank", "battery"), ("bank",)):  # an engine's battery after all else, the bank's column last of all
        if some := {i: size for i, size in left.items() if size[2] not in last}:
            left = some
            break
    over = piece.wide - area.width
    if over <= 0:
        return [(i,) for i in sorted(left, key=lambda i: (-left[i][1], -left[i][0], i))]
    enough = sorted(
        (i for i in left if left[i][0] - STUB >= over),
        key=lambda i: (left[i][2] not in ("panel", "ac panel"), left[i][0] * left[i][1], i),
    )
    widest = sorted((i for i in left if i not in enough), key=lambda i: (-left[i][0], i))
    if enough:
        return [*((i,) for i in enough), *((i,) for i in widest)]
    several: list[int] = []
    while widest and over > 0:
        several.append(widest.pop(0))
        over -= max(left[several[-1]][0] - STUB, 5.0)
    return [tuple(several)] if several else []


STUB = 30.0  # [mm] that a reference takes in place of what it leads to


def panels_first(sizes: dict[int, tuple[float, float, str]]) -> list[int]:
    """Sub blocks worth standing apart for fewer sheets: panels, the largest first, then others; no store."""
    left = {i: size for i, size in sizes.items() if size[0] * size[1] > 900 and size[2] not in ("bank", "battery")}
    return sorted(left, key=lambda i: ("panel" not in left[i][2], -left[i][0] * left[i][1], i))
