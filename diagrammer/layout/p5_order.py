"""Fifth phase, places along the bar: as the engine says, made legal; or packed in file order."""

from __future__ import annotations

from dataclasses import field
from math import inf

from diagrammer.frozen import changing
from diagrammer.layout import engine
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.metrics import GAP, TAP
from diagrammer.layout.p4_blocks.plan import Plan


@changing
class Placed:
    block: Block
    engine: str = "own packing"
    low: bool = False  # returns and earths that hang on nothing drawn: at the foot of a sheet
    remarks: list[str] = field(default_factory=list)


def positions(plan: Plan, ups: list[Block], downs: list[Block], asked: str):
    """x of every column: from the engine, made legal; or packed."""
    boxes = [*ups, *downs]
    bar = len(boxes)
    sizes = [(max(b.right - b.left, 1.0), max(b.bottom - b.top, 1.0)) for b in boxes] + [(20.0, 2.0)]
    edges = [(n, bar) for n in range(len(ups))] + [(bar, len(ups) + n) for n in range(len(downs))]
    ranks = [list(range(len(ups))), list(range(len(ups), bar))]
    found = engine.place(ranks, sizes, edges, asked) if len(boxes) > 2 else engine.Placement((), "own packing")
    if found.xs:
        wanted = [x - (b.right - b.left) / 2 - b.left for x, b in zip(found.xs, boxes)]
        wish_up, wish_down = wanted[:len(ups)], wanted[len(ups):]
    else:
        wish_up, wish_down = [0.0] * len(ups), [0.0] * len(downs)
    xs_down = _legal(downs, wish_down)
    xs_up = _legal(ups, wish_up)
    if not found.xs and xs_up and xs_down:
        shift = max(0.0, (xs_down[-1] + downs[-1].right - xs_up[-1] - ups[-1].right) / 2)
        xs_up = [x + shift for x in xs_up]
    xs_up, xs_down = beside_wings(ups, downs, xs_up, xs_down)
    remarks = [found.remark] if found.remark else []
    return xs_up, xs_down, Placed(Block(), found.engine, remarks=remarks)


def _legal(blocks: list[Block], wish: list[float]) -> list[float]:
    """As wished, but in order and apart."""
    made: list[float] = []
    for number, (block, x) in enumerate(zip(blocks, wish)):
        if made:
            before = blocks[number - 1]
            x = max(x, made[-1] + before.right + GAP - block.left, made[-1] + TAP)
        made.append(round(x, 2))
    return made


def beside_wings(ups, downs, xs_up, xs_down):
    """Where the first or last column below reaches up beside the bar, what stands above keeps clear."""
    if not downs:
        return xs_up, xs_down
    if downs[0].wing and downs[0].top < 0 and len(downs) > 1:
        edge = xs_down[0] + _reach(downs[0], 1) + GAP
        shift = max(0.0, edge - (xs_up[0] + ups[0].left)) if xs_up else 0.0
        xs_up = [x + shift for x in xs_up]
    if downs[-1].wing and downs[-1].top < 0:
        edge = max((x + u.right for x, u in zip(xs_up, ups)), default=-1e9) + GAP
        start = xs_down[-1] + _reach(downs[-1], -1)
        xs_down = [*xs_down[:-1], xs_down[-1] + max(0.0, edge - start)]
    return xs_up, xs_down


def _reach(block: Block, side: int) -> float:
    """Of what reaches clearly above the bar: its right end (1) or left end (-1); nowhere where nothing does."""
    over = [(l, r) for l, t, r, b in block.extents() if t < -1]
    return max((r for _, r in over), default=-inf) if side > 0 else min((l for l, _ in over), default=inf)
