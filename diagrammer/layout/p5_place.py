"""Fifth phase: the blocks on a main bar ordered and placed, and the bar stretched over its taps.

Before: a root. After: one block for its whole piece; columns above and below the bar do not overlap;
taps stand in file order, the bank at the left end, what makes ac at the right.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from diagrammer.layout import engine
from diagrammer.layout.p1_wiring import RAILS, Vertex
from diagrammer.layout.p3_tree import CHOOSES, leads_to_store, top
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.catch import catch, gather_block, land, loose
from diagrammer.layout.p4_blocks.column import column
from diagrammer.layout.p4_blocks.metrics import GAP, OVER, TAP, TEXT, THICK
from diagrammer.layout.p4_blocks.node import as_rake, node_block, symbol_block
from diagrammer.layout.p4_blocks.plan import PLACE, Branch, Plan
from diagrammer.layout.p4_blocks.rail import bar_tag, port_block, tag_columns, write
from diagrammer.layout.p4_blocks.rake import leg, legs, rake_block, shared
from diagrammer.layout.scene import Bar, Stub
from diagrammer.layout.tags import SIZE
from diagrammer.layout.texts import LEADING, width

MAINS = frozenset(("inverter", "inverter charger", "pv inverter"))


@dataclass
class Placed:
    block: Block
    engine: str = "own packing"
    low: bool = False  # returns and earths that hang on nothing drawn: at the foot of a sheet
    remarks: list[str] = field(default_factory=list)


def piece(plan: Plan, root: Vertex, asked: str) -> list[Placed]:
    """The block of one root with all that hangs on it; more than one where its bar is divided."""
    made = _piece(plan, root, asked)
    for placed in made:
        loose(plan, placed.block)
    return made


def _piece(plan: Plan, root: Vertex, asked: str) -> list[Placed]:
    if root in plan.returns.roots:
        return [Placed(gather_block(plan, root, [0.0]))]
    kind = plan.tree.kind(root)
    if kind == "bar":
        return _main(plan, root, asked)
    if kind in RAILS:
        return [Placed(block) for block in _panel(plan, root)]
    return [Placed(_symbol(plan, root))]


def _panel(plan: Plan, root: Vertex) -> list[Block]:
    """A panel as one rake, or as several with references where its legs take more than a sheet."""
    whole = node_block(plan, root, "main", None, 1)
    branches = plan.branches(root)
    if not plan.wide or whole.right - whole.left <= plan.wide or not as_rake(plan, root, branches, 1):
        return [whole]
    count = int((whole.right - whole.left) / plan.wide) + 1
    parts = shared(branches, [1.0] * len(branches), count)
    blocks = [rake_block(plan, root, part, None) for part in parts]
    for number, block in enumerate(blocks):
        _continue(plan, root, number, len(blocks), block)
    return blocks


def _continue(plan: Plan, root: Vertex, number: int, count: int, block: Block) -> None:
    """References from the foot of one part of a panel to the head of the next."""
    foot = max(bar.end[1] for bar in block.items if isinstance(bar, Bar) and bar.start == (0, 0) and bar.end[0] == 0)
    if number:
        block.add(_reference(plan, root, number - 1, "b", (0.0, 0.0), "up"))
    if number + 1 < count:
        block.add(_reference(plan, root, number, "a", (0.0, foot), "down"))


def _reference(plan: Plan, root: Vertex, number: int, end: str, point, side_: str) -> Stub:
    """One end of the break between two parts of a bar."""
    name, other = f"x-{root[0]}-{number}", "b" if end == "a" else "a"
    form = "to" if end == "a" else "from"
    return Stub(f"{name}{end}", point, side_, plan.called(root) + PLACE, form, root[0], f"{name}{other}")


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
        d = 1 if any(_is_bank(plan, b) for b in branches if b.port != port) else -1
    if len(here) > 1 and point:
        return node_block(plan, root, port, None, d)
    block = Block()
    block.put(symbol_block(plan, root, port, [b for b in branches if b.port != port], d, 1, (28.0, -1.5)), 0, 0)
    block.put(port_block(plan, here, -d, 1, max(0.0, block.children[0][0].lead)), 0, 0)
    catch(plan, block)
    return block


def _main(plan: Plan, root: Vertex, asked: str) -> list[Placed]:
    """The main bar with all its columns, in as many parts as the plan's width asks for."""
    half = THICK / 2
    branches = plan.branches(root)
    ups = [column(plan, b, -1, start=half) for b in branches if b.upward]
    downs = [b for b in branches if not b.upward]
    banks = [b for b in downs if _is_bank(plan, b)]
    mains = [b for b in downs if b not in banks and _makes_ac(plan, b)]
    middle = [b for b in downs if b not in banks and b not in mains]
    groups = [[b] for b in banks] + _groups(plan, middle) + [[b] for b in mains]
    below = [_below(plan, root, group, n, len(groups), group[0] in banks) for n, group in enumerate(groups)]
    below += tag_columns(plan, root, 1.0)
    parts = _parts(plan, ups, below)
    return [_part(plan, root, asked, n, len(parts), *part) for n, part in enumerate(parts)]


def _below(plan: Plan, root: Vertex, group: list[Branch], number: int, count: int, bank: bool) -> Block:
    """A column, or a leg with rows. Only at the bar's ends may it reach up beside the bar."""
    if len(group) > 1:
        return leg(plan, root, group, THICK / 2)
    grow = _side(plan, group[0], bank and number == 0)
    wing = number == 0 if grow < 0 else number == count - 1
    return column(plan, group[0], 1, grow, wing, THICK / 2)


def _parts(plan: Plan, ups: list[Block], downs: list[Block]) -> list[tuple[list[Block], list[Block]]]:
    """Columns above and below in file order, as many to a part as its width takes."""
    if not plan.wide:
        return [(ups, downs)]
    rows = [_filled(blocks, plan.wide - 75) for blocks in (ups, downs)]
    count = max(1, *map(len, rows))
    return [tuple(row[n] if n < len(row) else [] for row in rows) for n in range(count)]


def _filled(blocks: list[Block], most: float) -> list[list[Block]]:
    made: list[list[Block]] = []
    used = most
    for block in blocks:
        wide = max(block.right - block.left, TAP) + GAP
        if used + wide > most and (not made or made[-1]):
            made.append([])
            used = 0.0
        made[-1].append(block)
        used += wide
    return made


def _part(plan: Plan, root: Vertex, asked: str, number: int, count: int, ups: list[Block], below: list[Block]) -> Placed:
    """One part of the main bar; further parts hang together by references."""
    title = plan.rows(root, 60)
    wide = max(sum(width(t, SIZE, bold) + 1 for t, bold in row) for row in title)
    xs_up, xs_down, made = _positions(plan, ups, below, asked)
    block = made.block
    left = (xs_down[0] if xs_down else xs_up[0] if xs_up else 0.0) - OVER
    if ups:
        shift = max(0.0, left + wide + GAP - min(x + up.left for x, up in zip(xs_up, ups)))
        xs_up = [x + shift for x in xs_up]
        xs_up, xs_down = _beside_wings(ups, below, xs_up, xs_down)
    for child, x in (*zip(ups, xs_up), *zip(below, xs_down)):
        block.put(child, x, 0)
    landed = land(plan, block, root, 1.0)
    right = max(*xs_up, *xs_down, *landed, left + wide - OVER, left + 12) + OVER
    left = min([left + OVER, *landed]) - OVER
    beside = [(l, r) for l, t, r, b in block.extents() if t < 4 and b > -4]  # its references keep clear of words
    right = max([right, *(r + 2.0 for _, r in beside)]) if number + 1 < count else right
    left = min([left, *(l - 2.0 for l, _ in beside)]) if number else left
    node = plan.node(root)
    block.add(Bar(root[0], (left, 0), (right, 0), 2.0, plan.title(root), node.place.line))
    write(block, title, left, -2.2 - (len(title) - 1) * LEADING, root[0])
    if number:
        block.add(_reference(plan, root, number - 1, "b", (left, 0.0), "left"))
    if number + 1 < count:
        block.add(_reference(plan, root, number, "a", (right, 0.0), "right"))
    if number == 0:
        bar_tag(plan, block, root, left)
    catch(plan, block)
    return made


def _groups(plan: Plan, branches: list[Branch]) -> list[list[Branch]]:
    """Neighbours in file order that feed but a load each stand together, where they are many."""
    groups: list[list[Branch]] = []
    for branch in branches:
        if _single(plan, branch) and groups and groups[-1][0].form != "tail" and _single(plan, groups[-1][-1]):
            groups[-1].append(branch)
        else:
            groups.append([branch])
    plan.ungrouped |= any(1 < len(group) < plan.many for group in groups)
    return [
        part for group in groups
        for part in (legs(plan, group) if len(group) >= plan.many else [[b] for b in group])
    ]


def _single(plan: Plan, branch: Branch) -> bool:
    return branch.form == "tag" or plan.node(branch.far[0]).kind.uses


def _side(plan: Plan, branch: Branch, first: bool) -> int:
    """A bank column with sources of its own spreads to the left, past the bar's end."""
    if not first or branch.form != "tree":
        return 1
    return -1 if any(b.upward for b in plan.branches(branch.far[0], branch.chain)) else 1


def _is_bank(plan: Plan, branch: Branch) -> bool:
    return branch.form == "tree" and leads_to_store(plan.tree, branch.chain, branch.from_a)


def _makes_ac(plan: Plan, branch: Branch) -> bool:
    return branch.form == "tree" and plan.tree.kind(branch.far[0]) in MAINS


def _positions(plan: Plan, ups: list[Block], downs: list[Block], asked: str):
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
    xs_up, xs_down = _beside_wings(ups, downs, xs_up, xs_down)
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


def _beside_wings(ups, downs, xs_up, xs_down):
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
    """Of what reaches above the bar: its right end (1) or left end (-1)."""
    over = [(l, r) for l, t, r, b in block.extents() if t < -1]
    return max(r for _, r in over) if side > 0 else min(l for l, _ in over)
