"""Sixth phase, one try: the pieces of a forest with some chains cut, laid out one way of several."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from functools import cached_property

from diagrammer.frozen import changing, frozen
from diagrammer.layout import sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import STORES, Vertex, Wiring
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p3_returns import returns
from diagrammer.layout.p3_tree import tree
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.catch import gather_block
from diagrammer.layout.p4_blocks.plan import Plan, Words
from diagrammer.layout.p5_place import isolated, piece
from diagrammer.layout.p5_order import Placed
from diagrammer.layout.p6_pages import alone, Piece
from diagrammer.layout.scene import Bar, Shape, Text
from diagrammer.layout.conductors import numbers, written
from diagrammer.layout.texts import LEADING, SIZE, designations

How = tuple[tuple[int, ...], bool, int, int]  # chains cut, and one of HOWS


@frozen(eq=False)
class Task:
    """What every try is given. lines, back: chains of the feed side, and of returns and bonds."""

    wired: Wiring
    lines: list[Chain]
    back: list[Chain]
    said: Words
    options: Options
    seen: dict[int, Piece] = field(default_factory=dict)  # by their blocks, which are kept from try to try

    def piece(self, placed: Placed) -> Piece:
        known = self.seen.get(id(placed.block))
        if known is None:
            known = self.seen[id(placed.block)] = Piece(placed.block, placed.low)
        return known


@changing
class Draft:
    """One try: pieces of a forest with the chains cut so far."""

    task: Task
    plan: Plan
    how: How
    pieces: list[Placed]
    sizes: list[dict]

    def wrong(self, size: str) -> int:
        """Number, from 1, of the first piece that does not fit on a sheet; 0 where all do."""
        return next((n for n, made in enumerate(self.cut_out, 1) if not alone(made, size)), 0)

    @cached_property
    def cut_out(self) -> list[Piece]:
        return [self.task.piece(placed) for placed in self.pieces]


# Sub panels below their panel; from how many on loads make a group; the main bar in parts, with shorter legs of rakes.
HOWS = ((True, 5, 0), (False, 5, 0), (True, 2, 0), (True, 2, 1), (True, 2, 2))
ABOVE = (95.0, 55.0, 145.0)  # [mm] of a sheet's height that the legs of a rake leave free


def words(wired: Wiring, marks: Sequence[Mark], options: Options) -> Words:
    faults = {name: mark.severity for mark in reversed(marks) for name in mark.conductors if not mark.accepted}
    named = numbers(wired.system) if options.numbers else {}
    return Words(designations(wired.system), written(wired, options), faults, named)


def drafted(task: Task, how: How, engine: str) -> Draft:
    """One try. engine: as in Options."""
    wired, options, (apart, below, many, divided) = task.wired, task.options, how
    forest = tree(wired, task.lines, apart)
    sorted_ = returns(forest, task.back)
    high = sheets.area(options.size).height if options.size else 277.0
    blocked: frozenset[int] = frozenset()
    for _ in range(4):
        plan = Plan(
            forest, sorted_, options, task.said, blocked=blocked, below=below, many=many,
            tall=max(60.0, high - ABOVE[divided]), wide=sheets.area(options.size).width if divided else 0.0,
        )
        roots = [*(r for r in forest.roots if r in wired.vertices), *sorted_.roots]
        pieces, sizes = [], []
        for root in roots:
            plan.sizes = {}
            made = piece(plan, root, engine)
            for placed in made:
                placed.low = root in sorted_.roots
            pieces += made
            sizes += [plan.sizes] * len(made)
        for key in sorted_.gathers:
            if key not in plan.gathered and plan.tree.kind(key[0]) not in STORES:
                gathered = gather_block(plan, key[0], [0.0])
                pieces += [Placed(gathered), *map(Placed, gathered.parts)]
                sizes += [{} for _ in (gathered, *gathered.parts)]
        for vertex in _left(wired, pieces):
            pieces.append(Placed(isolated(plan, vertex), low=True))
            sizes.append({})
        if options.told:
            pieces.append(Placed(told(options.told), low=True))
            sizes.append({})
        if not plan.met:
            break
        blocked |= frozenset(plan.met)
    return Draft(task, plan, how, pieces, sizes)


def told(lines: tuple[str, ...]) -> Block:
    """Lines beside the drawing."""
    block = Block()
    for number, line in enumerate(lines):
        block.add(Text(0.0, number * 1.15 * LEADING, line, SIZE, "note", bold=not number))
    return block


def _left(wired: Wiring, pieces: list[Placed]) -> list[Vertex]:
    """Nodes that no circuit of power reaches: those with a control lead only, or nothing at all."""
    items = (item for placed in pieces for item in placed.block.every())
    drawn = {item.node for item in items if isinstance(item, (Shape, Bar))}
    return [(name, "") for name in wired.system.nodes if name not in drawn]
