"""Fifth phase: the blocks on a main bar ordered and placed, and the bar stretched over its taps.

Before: a root. After: one block for its whole piece; columns above and below the bar do not overlap;
taps stand in file order, the bank at the left end, what makes ac at the right.
"""

from __future__ import annotations

from diagrammer.layout.p1_wiring import RAILS, Vertex
from diagrammer.layout.p3_ways import CHOOSES, top
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.catch import catch, gather_block, loose
from diagrammer.layout.p4_blocks.kept import kept
from diagrammer.layout.p4_blocks.node import as_rake, node_block, symbol_block
from diagrammer.layout.p4_blocks.parted import part_reference
from diagrammer.layout.p4_blocks.plan import Plan
from diagrammer.layout.p4_blocks.rail import port_block
from diagrammer.layout.p4_blocks.rake import rake_block, shared
from diagrammer.layout.p5_main_bar import is_bank, main_bar, Placed
from diagrammer.layout.scene import Bar


def piece(plan: Plan, root: Vertex, asked: str) -> list[Placed]:
    """The block of one root with all that hangs on it; more than one where its bar is divided."""
    below = root in plan.returns.roots
    if plan.tree.kind(root) == "bar" and not below:
        made = main_bar(plan, root, asked)
        for placed in made:
            loose(plan, placed.block)
        return [*made, *(Placed(part) for placed in made for part in placed.block.parts)]
    return [Placed(block) for block in kept(plan, ("root", root, below), lambda: _blocks(plan, root, below))]


def _blocks(plan: Plan, root: Vertex, below: bool) -> list[Block]:
    """Of any root but a main bar; below: one that gathers returns."""
    if below:
        made = [gather_block(plan, root, [0.0])]
    else:
        made = _panel(plan, root) if plan.tree.kind(root) in RAILS else [_symbol(plan, root)]
    for block in made:
        loose(plan, block)
    return [*made, *(part for block in made for part in block.parts)]


def _panel(plan: Plan, root: Vertex) -> list[Block]:
    """A panel as one rake, or as several with references where its legs take more than a sheet."""
    whole = node_block(plan, root, "main", None, 1)
    branches = plan.branches(root)
    wide = plan.setting("wide")
    if not wide or whole.right - whole.left <= wide or not as_rake(plan, root, branches, 1):
        return [whole]
    count = int((whole.right - whole.left) / wide) + 1
    parts = shared(branches, [1.0] * len(branches), count)
    blocks = [rake_block(plan, root, part, None) for part in parts]
    for number, block in enumerate(blocks):
        _continue(plan, root, number, len(blocks), block)
    return blocks


def _continue(plan: Plan, root: Vertex, number: int, count: int, block: Block) -> None:
    """References from the foot of one part of a panel to the head of the next."""
    foot = max(bar.end[1] for bar in block.items if isinstance(bar, Bar) and bar.start == (0, 0) and bar.end[0] == 0)
    if number:
        block.add(part_reference(plan, root, number - 1, "b", (0.0, 0.0), "up"))
    if number + 1 < count:
        block.add(part_reference(plan, root, number, "a", (0.0, foot), "down"))


def isolated(plan: Plan, vertex: Vertex) -> Block:
    """A node to which no circuit of power leads, with the tags of what else does."""
    if plan.tree.kind(vertex) in RAILS:
        return node_block(plan, vertex, "main", None, 1)
    return symbol_block(plan, vertex, "main", [], -1 if plan.is_source(vertex) else 1, 1, (1.5, -1.5))


def _symbol(plan: Plan, root: Vertex) -> Block:
    """A root that is no bar: what it takes in above it, the rest below."""
    branches = plan.branches(root)
    ports = dict.fromkeys(b.port for b in branches)
    if not ports:
        return symbol_block(plan, root, "main", [], -1 if plan.is_source(root) else 1, 1, (1.5, -1.5))
    point = plan.node(root).kind.sort == "point"
    above = [p for p in ports if (p == "main" and not plan.is_source(root) if point else top(plan.tree, (root, p)))]
    port = above[0] if above else next(iter(ports))
    here = [b for b in branches if b.port == port]
    d = 1 if above else -1
    if plan.tree.kind(root) in CHOOSES and "common" in ports:
        port, here = "common", [b for b in branches if b.port == "common"]
        d = 1 if any(is_bank(plan, b) for b in branches if b.port != port) else -1
    if len(here) > 1 and point:
        return node_block(plan, root, port, None, d)
    block = Block()
    block.put(symbol_block(plan, root, port, [b for b in branches if b.port != port], d, 1, (28.0, -1.5)), 0, 0)
    block.put(port_block(plan, here, -d, 1, max(0.0, block.children[0][0].lead)), 0, 0)
    catch(plan, block)
    return block
