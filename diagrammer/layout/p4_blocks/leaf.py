"""A load at the end of a row, with its return and its words."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import RAILS
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.fit import at, body, fitted, flipped, natural
from diagrammer.layout.p4_blocks.metrics import TEXT
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Shape, Text
from diagrammer.layout.tags import CAPS, SIZE, tag
from diagrammer.layout.texts import LEADING, width


def is_leaf(plan: Plan, branch: Branch) -> bool:
    """A load or the like with nothing else at it."""
    return not plan.branches(branch.far[0], branch.chain) and plan.tree.kind(branch.far[0]) not in RAILS


def load_length(plan: Plan, branch: Branch) -> float:
    """Length of the load's symbol in the row, with room for its tags."""
    others = [s.id for s in plan.sides(branch.far[0]) if s.form != "return" and not s.id.startswith("y")]
    return body(plan.symbol(branch.far[0]), others, True)


def return_room(plan: Plan, branch: Branch) -> float:
    stubs = [s for s in plan.sides(branch.far[0]) if s.form == "return" or s.id.startswith("y")]
    return tag(replace(stubs[0], side="right")).box.width if stubs else 0.0


def leaf(plan: Plan, vertex, port: str, words: float) -> Block:
    """A load at the end of a row, its origin at its left port; words begin at `words`."""
    block = Block()
    base = plan.symbol(vertex)
    if natural(base, port, "up") is None:
        base = flipped(base)
    stubs = plan.sides(vertex)
    returns = [s for s in stubs if s.form == "return" or s.id.startswith("y")][:1]
    others = [s for s in stubs if s not in returns]
    symbol, _ = fitted(base, [(port, 0.0)], [("2", 0.0)] if returns else [], [s.id for s in others], True)
    shape = Shape(vertex[0], symbol, symbol.height / 2, 0, 270, plan.title(vertex), plan.node(vertex).place.line)
    block.add(shape)
    for stub in returns:
        block.add(replace(stub, at=at(shape, "2"), side="right"))
    for stub in others:
        block.add(replace(stub, at=at(shape, stub.id), side="down"))
    load_words(plan, block, vertex, max(words, symbol.height + TEXT))
    return block


def load_words(plan: Plan, block: Block, vertex, x: float) -> None:
    """Designation and name in one line, the values after it or below."""
    lines = plan.lines(vertex, 40)
    total = sum(width(t, SIZE, b) + 1 for t, b in lines)
    rows = [lines] if total <= 44 else [lines[:2], lines[2:]]
    rows = [row for row in rows if row]
    y = CAPS / 2 - (len(rows) - 1) * LEADING / 2
    for number, pieces in enumerate(rows):
        at_x = x
        for text, bold in pieces:
            role = "designation" if bold else "name"
            block.add(Text(at_x, y + number * LEADING, text, SIZE, role, "start", bold, vertex[0]))
            at_x += width(text, SIZE, bold) + 1.0
