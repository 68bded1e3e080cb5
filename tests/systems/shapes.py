"""Which shape a house bank may have, and its making."""

from __future__ import annotations

from tests.systems.bank import single
from tests.systems.draft import Draft
from tests.systems.practice import step
from tests.systems.several import apart, linked, parallel, selector, series, strings, three

SHAPES = {  # nodes that each takes beside the two main bars
    "single": (single, 2),
    "parallel": (parallel, 5),
    "three": (three, 6),
    "linked": (linked, 3),
    "series": (series, 3),
    "strings": (strings, 7),
    "selector": (selector, 5),
    "apart": (apart, 4),
}


def cost(shape: str) -> int:
    return SHAPES[shape][1]


def fitting(draft: Draft) -> list[str]:
    """Shapes that the size has room for; of 12 V batteries a 12 V bank makes no stack."""
    room = draft.size - 4
    stacks = ("series", "strings") if draft.volts == 12 else ()
    return [shape for shape, (_, nodes) in SHAPES.items() if nodes <= room and shape not in stacks]


def build(draft: Draft, shape: str) -> None:
    """The last part made: everything that hangs on the bars is known."""
    main = step(max(1.25 * draft.demand, 1.25 * draft.charge, 60))
    SHAPES[shape][0](draft, main)
