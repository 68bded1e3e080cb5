"""What stands at the end of a row that is no mere load."""

from __future__ import annotations

from diagrammer.layout.p1_wiring import RAILS, STORES
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.column import side_tags
from diagrammer.layout.p4_blocks.fit import fitted, flipped, natural
from diagrammer.layout.p4_blocks.leaf import load_length, return_room, leaf
from diagrammer.layout.p4_blocks.metrics import TEXT
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.p4_blocks.row import Row
from diagrammer.layout.scene import Line, Shape
from diagrammer.layout.texts import LEADING


def end_block(plan: Plan, branch: Branch) -> Block:
    """Whatever else stands at the end of a row: a sub panel, a converter, a shared terminal, a column."""
    from diagrammer.layout.p4_blocks.rake import rows_of, thin_rake

    vertex, port = branch.far
    branches = plan.branches(vertex, branch.chain)
    kind = plan.node(vertex).kind
    if kind.name in ("panel", "ac panel") and not any(b.upward and b.form == "tree" for b in branches) and branches:
        return _sub_panel(plan, vertex, branches)
    here = [b for b in branches if b.port == port]
    shared = len(here) == len(branches) and not any(b.upward and b.form == "tree" for b in here)
    if shared and kind.name not in (*RAILS, *STORES):
        first = Row(plan, branch, 0.0)
        first.block = Block()
        first.block.add(_short_line(plan, branch))
        first.block.put(leaf(plan, vertex, port, load_length(plan, branch) + return_room(plan, branch) + TEXT), 4.0, 0)
        return thin_rake(plan, [first, *rows_of(plan, here, 0.0)], branch.chain.links[0], plan.title(vertex))
    if kind.sort == "end" and len(branches) == 1 and branches[0].port != port and branches[0].form != "tail":
        return _passing(plan, vertex, port, branches[0])
    return _elbow(plan, branch)


def _short_line(plan: Plan, branch: Branch) -> Line:
    link = branch.chain.links[-1]
    return Line(link.circuit, "", ((0, 0), (4.0, 0)), plan.weight(link, False), link.circuit, link.line)


def _sub_panel(plan: Plan, vertex, branches) -> Block:
    from diagrammer.layout.p4_blocks.rake import rake_block

    inner = rake_block(plan, vertex, branches, branches[0].chain, True)
    block = Block()
    block.put(inner, 0.8, -3.0)
    return block


def _passing(plan: Plan, vertex, port: str, onward: Branch) -> Block:
    """A converter in a row, what it feeds going on to the right."""
    from diagrammer.layout.p4_blocks.rake import rows_of

    block = Block()
    base = plan.symbol(vertex)
    if natural(base, port, "up") is None:
        base = flipped(base)
    stubs = plan.sides(vertex)
    symbol, _ = fitted(base, [(port, 0.0)], [(onward.port, 0.0)], [s.id for s in stubs], True)
    shape = Shape(vertex[0], symbol, symbol.height / 2, 0, 270, plan.title(vertex), plan.node(vertex).place.line)
    block.add(shape)
    side_tags(plan, block, shape, vertex)
    lines = plan.lines(vertex, 40)
    rows = [lines[:2], lines[2:]] if len(lines) > 2 else [lines]
    from diagrammer.layout.p4_blocks.rail import write

    write(block, rows, 0.0, -symbol.width / 2 - 0.9 - (len(rows) - 1) * LEADING, vertex[0])
    after = rows_of(plan, [onward], 0.0)[0].block
    block.put(after, symbol.height, 0)
    return block


def _elbow(plan: Plan, branch: Branch) -> Block:
    """The row turns down into a column."""
    from diagrammer.layout.p4_blocks.node import node_block

    block = Block()
    link = branch.chain.links[-1]
    child = node_block(plan, branch.far[0], branch.far[1], branch.chain, 1)
    low = max(4.0, child.lead, 2.0 - child.top)
    weight, fault = plan.weight(link, branch.chain.signal), plan.fault(link)
    corner = ((0, 0), (3.0, 0), (3.0, low))
    block.add(Line(link.circuit, link.cable, corner, weight, link.circuit, link.line, fault))
    block.put(child, 3.0, low)
    return block
