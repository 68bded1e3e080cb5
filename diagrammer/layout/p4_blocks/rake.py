"""A panel as a rake: a vertical bar with one horizontal row a way."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import Vertex
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.column import column
from diagrammer.layout.p4_blocks.metrics import ROW, THICK
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.p4_blocks.row import Grid, Row, row
from diagrammer.layout.scene import Bar, Line
from diagrammer.layout.texts import LEADING


def rake_block(plan: Plan, vertex: Vertex, branches: list[Branch], came: Chain | None, sideways: bool = False) -> Block:
    """A panel entered at the top of its bar; sideways: at the left, its first row's height."""
    from diagrammer.layout.p4_blocks.rail import write

    block = Block()
    half = THICK / 2
    head = 1.0
    feed = None
    if came is None:
        feed = next((b for b in branches if b.upward and b.form == "tree"), None)
        if feed:
            block.put(column(plan, feed, -1), 0, 0)
    title = plan.rows(vertex, 50)
    write(block, title, half + 1.0, head + 2.2, vertex[0])
    y = head + len(title) * LEADING + 1.0
    rows = rows_of(plan, [b for b in branches if b is not feed], half)
    bottom = place_rows(block, rows, y, 0.0) + 2.0
    stubs = plan.sides(vertex)
    bottom = max(bottom, 4.2 * len(stubs) + 2)
    for number, stub in enumerate(stubs):
        block.add(replace(stub, at=(-half, 3.0 + 4.2 * number), side="left"))
    block.add(Bar(vertex[0], (0, 0), (0, bottom), THICK, plan.title(vertex), plan.node(vertex).place.line))
    return block


def rows_of(plan: Plan, branches: list[Branch], start: float) -> list[Row]:
    """The rows of branches, their devices and loads in line below each other."""
    grid = Grid()
    drafts = [row(plan, branch, start) for branch in branches]
    for draft in drafts:
        grid.take(draft)
    for draft in drafts:
        grid.end(draft)
    return [draft.drawn(grid) for draft in drafts]


def place_rows(block: Block, rows: list[Row], y: float, x: float) -> float:
    """Rows below each other from y; returns the height of the last row's line."""
    axis = y
    last = None
    for made in rows:
        inner = made.block
        axis = y - inner.top if last is None else max(y - inner.top, last + ROW)
        block.put(inner, x, axis)
        y = axis + inner.bottom + 0.6
        last = axis
    return axis


def thin_rake(plan: Plan, rows: list[Row], link, title: str) -> Block:
    """Rows on a thin vertical line: a terminal where several meet. Its origin is the first row's left."""
    block = Block()
    axis = 0.0
    taps = []
    low = 0.0
    for number, made in enumerate(rows):
        axis = 0.0 if number == 0 else max(low - made.block.top + 0.6, axis + ROW)
        block.put(made.block, 0, axis)
        low = axis + made.block.bottom
        taps.append(axis)
    if len(taps) > 1:
        block.add(Line(link.circuit, "", ((0, 0), (0, taps[-1])), plan.weight(link, False), title, link.line,
                       dots=tuple((0.0, y) for y in taps[:-1])))
    return block
