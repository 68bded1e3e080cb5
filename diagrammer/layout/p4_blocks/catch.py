"""What gathers tails: a bar (or the post of the first store) under all the columns that lead to it."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import RAILS, STORES
from diagrammer.layout.p4_blocks.block import Block, Tail
from diagrammer.layout.p4_blocks.bridge import bridged
from diagrammer.layout.p4_blocks.metrics import OVER, TEXT, THICK
from diagrammer.layout.p4_blocks.parted import continued, past, sheet_shares
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.texts import LEADING
from diagrammer.layout.scene import Bar, Line, Shape, Stub


def catch(plan: Plan, block: Block) -> None:
    """Put every gathering bar whose tails are all in the block under them."""
    for key in dict.fromkeys(tail.key for tail in block.tails if plan.gathers(tail.key)):
        mine = [tail for tail in block.tails if tail.key == key]
        if len(mine) == plan.gathers(key) and plan.gathered.get(key) is None:
            plan.gathered[key] = len(mine)
            block.tails = [tail for tail in block.tails if tail.key != key]
            _put(plan, block, key, sorted(mine, key=lambda tail: tail.x))
    bridged(plan, block)


def land(plan: Plan, block: Block, vertex, half: float) -> list[float]:
    """Lines of parallel columns on to the bar at height 0; their x. Those that meet something are
    kept for another try without them."""
    taps = []
    for tail in [tail for tail in block.tails if tail.key[0] == vertex and not plan.gathers(tail.key)]:
        block.tails.remove(tail)
        end = -half if tail.y < 0 else half
        low, high = min(tail.y, end) + 0.1, max(tail.y, end) - 0.1
        if any(l < tail.x + 1 and r > tail.x - 1 and t < high and b > low for l, t, r, b in block.extents()):
            plan.met.append(tail.chain)
        taps.append(tail.x)
        block.add(replace(tail.line, points=(*tail.line.points[:-1], (tail.x, end))))
    return taps


def loose(plan: Plan, block: Block) -> None:
    """Tails whose gathering bar stands in another piece end in its tag; parallel ones and links to another piece
    ask for another try."""
    plan.met += [post.branch.chain.index for post in block.posts]
    block.posts = []
    for tail in block.tails:
        if not plan.gathers(tail.key):
            plan.met.append(tail.chain)
            continue
        _tagged(plan, block, tail)
    block.tails = []


def _tagged(plan: Plan, block: Block, tail: Tail) -> None:
    """A tail that cannot reach what gathers it ends in its tag."""
    if tail.line:
        block.add(tail.line)
    name = plan.called(tail.key[0])
    block.add(Stub(f"t{name}-{tail.chain}", (tail.x, tail.y), "down", name, "return", tail.key[0][0]))


def _barred(tail: Tail, y: float, extents) -> bool:
    """Whether something stands between a tail and a bar at height y."""
    return any(l < tail.x + 0.5 and r > tail.x - 0.5 and t < y - 0.1 and b > tail.y + 0.1 for l, t, r, b in extents)


def _put(plan: Plan, block: Block, key, tails: list[Tail]) -> None:
    vertex = key[0]
    lower, y = _under(plan, block, vertex, tails)
    extents = block.extents()
    free = [tail for tail in tails if not _barred(tail, y, extents)]
    for tail in tails:
        if tail not in free:
            _tagged(plan, block, tail)
    base = free or tails[:1]
    if len(base) < len(tails):
        lower, y = _under(plan, block, vertex, base)
    for tail in free:
        if tail.line:
            block.add(replace(tail.line, points=(*tail.line.points[:-1], (tail.x, y))))
        elif y > tail.y + 0.01:
            block.add(Line("", "", ((tail.x, tail.y), (tail.x, y)), "return", plan.title(vertex)))
    block.put(lower, base[0].x, y)


def _under(plan: Plan, block: Block, vertex, tails: list[Tail]) -> tuple[Block, float]:
    """The gathering bar with what hangs on it, and the height at which it is free of all above it."""
    origin = tails[0].x
    lower = gather_block(plan, vertex, [tail.x - origin for tail in tails])
    low = block.lowest(origin + lower.left, origin + lower.right)
    return lower, max(max(tail.y for tail in tails) + lower.lead, low + 2 - lower.top)


def gather_block(plan: Plan, vertex, xs: list[float]) -> Block:
    """The gathering bar itself with what hangs on it; its origin under the first tail."""
    from diagrammer.layout.p4_blocks.column import column
    from diagrammer.layout.p4_blocks.node import node_block
    from diagrammer.layout.p4_blocks.rail import bar_tag, side, tag_columns, write

    kind = plan.tree.kind(vertex)
    if kind not in RAILS and kind not in STORES and len(xs) == 1:
        return node_block(plan, vertex, "main", None, 1)
    block = Block()
    post = kind in STORES
    half = 0.0 if post else THICK / 2
    below = [b for b in plan.branches(vertex, None, True) if b.chain and b.form != "tail" and _is_return(b)]
    columns = [column(plan, b, 1, 1, start=half) for b in below]
    first, *rest = sheet_shares(plan, [*columns, *tag_columns(plan, vertex, half)]) if kind in RAILS else [columns]
    placed = side(first, 1, None)
    left, right = min(xs) - OVER, max([*xs, *(x for _, x in placed)]) + OVER
    if post:
        if len(xs) > 1:
            block.add(_post_line(plan, vertex, ((min(xs), 0), (right - OVER, 0)), xs))
    elif kind in RAILS:
        right = max(right, left + 12)
        if rest:
            right = max(past(plan, block, vertex, right, max(xs)), placed[-1][1] + placed[-1][0].right + 2.0)
        block.add(Bar(vertex[0], (left, 0), (right, 0), THICK, plan.title(vertex), plan.node(vertex).place.line))
        rows = plan.rows(vertex, 40)
        write(block, rows, max(xs) + TEXT + 0.3, -THICK / 2 - 0.9 - (len(rows) - 1) * LEADING, vertex[0])
        block.lead = len(rows) * LEADING + 1.0
        bar_tag(plan, block, vertex, left)
        continued(plan, block, vertex, right, rest)
    else:
        symbol = plan.symbol(vertex)
        block.add(Shape(vertex[0], symbol, 0, symbol.height / 2, 0, plan.title(vertex)))
        block.add(_post_line(plan, vertex, ((min(xs), 0), (max(xs), 0)), xs))
    for child, x in placed:
        block.put(child, x, 0)
    return block


def _post_line(plan: Plan, vertex, points, xs: list[float]) -> Line:
    """A thin line on which tails meet, dots where inner ones do."""
    return Line("", "", points, "return", plan.title(vertex), dots=tuple((x, 0.0) for x in xs[1:-1]))


def _is_return(branch: Branch) -> bool:
    return branch.chain.links[0].role in ("return", "bond")
