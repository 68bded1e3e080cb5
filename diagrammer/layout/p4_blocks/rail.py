"""A horizontal rail: a bar, or the line on which several branches of one terminal meet."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import Vertex
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.bridge import Post
from diagrammer.layout.p4_blocks.catch import catch, land
from diagrammer.layout.p4_blocks.column import column
from diagrammer.layout.p4_blocks.metrics import GAP, OVER, TAP, TEXT, THICK
from diagrammer.layout.p4_blocks.parted import continued, past, reference_end, sheet_shares
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Bar, Line, Text
from diagrammer.layout.tags import SIZE
from diagrammer.layout.texts import LEADING, width

Placed = list[tuple[Block, float]]


def bar_block(plan: Plan, vertex: Vertex, branches: list[Branch], d: int, grow: int, clear, entered: bool) -> Block:
    """A bar node entered from above (d 1) or below (d -1), or not at all."""
    block = Block()
    half = THICK / 2
    ups = [column(plan, b, -1, grow, start=half) for b in branches if b.upward]
    downs = [column(plan, b, 1, grow, start=half) for b in branches if not b.upward]
    downs += tag_columns(plan, vertex, half)
    downs, *rest = sheet_shares(plan, downs) if grow > 0 else [downs]
    above = side(ups, grow, clear if d > 0 and entered else None)
    below = side(downs, grow, clear if d < 0 and entered else None)
    for child, x in (*above, *below):
        block.put(child, x, 0)
    taps = [x for _, x in (*above, *below)] + ([0.0] if entered else []) + land(plan, block, vertex, half)
    left, right = min(taps, default=0.0) - OVER, max(taps, default=0.0) + OVER
    right = max(right, left + 12) if grow > 0 else right
    left = min(left, right - 12) if grow < 0 else left
    right = past(plan, block, vertex, right) if rest else right
    beyond = reference_end(plan, vertex, right) if rest else right
    name_bar(plan, block, vertex, left, beyond, d, above if d > 0 else below)
    node = plan.node(vertex)
    block.add(Bar(vertex[0], (left, 0), (right, 0), THICK, plan.title(vertex), node.place.line))
    bar_tag(plan, block, vertex, left)
    continued(plan, block, vertex, right, rest)
    block.wing = bool(above if d > 0 else below)
    catch(plan, block)
    return block


def name_bar(plan: Plan, block: Block, vertex: Vertex, left: float, right: float, d: int, beside: Placed) -> None:
    """The name beside the line that comes in, or past the bar's end where something stands there."""
    rows = plan.rows(vertex, 40)
    wide = max(sum(width(t, SIZE, b) + 1 for t, b in row) for row in rows)
    high = len(rows) * LEADING
    if not beside and d > 0:
        x, y = TEXT + 0.3, -THICK / 2 - 0.9 - (len(rows) - 1) * LEADING
        block.lead = high + 2
    elif not beside:
        x, y = TEXT + 0.3, THICK / 2 + LEADING
        block.lead = high + 2
    else:
        x, y = right + TEXT, (1 - len(rows)) * LEADING / 2 + 0.9
    write(block, rows, x, y, vertex[0])
    block.room(x, y - 2.4, x + wide, y + high - 2.4)


def write(block: Block, rows, x: float, y: float, owner: str) -> None:
    """Rows of pieces of text, from x to the right."""
    for number, row in enumerate(rows):
        at = x
        for text, bold in row:
            role = "designation" if bold else "name"
            block.add(Text(at, y + number * LEADING, text, SIZE, role, "start", bold, owner))
            at += width(text, SIZE, bold) + 1.0


def bar_tag(plan: Plan, block: Block, vertex: Vertex, left: float) -> None:
    """The first tag of a bar's own returns and bonds, at its left end."""
    for stub in plan.sides(vertex)[:1]:
        block.add(replace(stub, at=(left, 0), side="left"))


def tag_columns(plan: Plan, vertex: Vertex, half: float) -> list[Block]:
    """Its further tags, as columns."""
    made = []
    for stub in plan.sides(vertex)[1:]:
        block = Block()
        block.add(replace(stub, at=(0, half), side="down"))
        made.append(block)
    return made


def thin_block(
    plan: Plan, vertex: Vertex, port: str, symbol: Block, here: list[Branch], d: int, grow: int, clear,
    came: Chain | None,
) -> Block:
    """The terminal of a symbol where several branches meet: a thin line with the symbol on it."""
    block = Block()
    source = plan.is_source(vertex)
    ups = [column(plan, b, -1, grow) for b in here if b.upward]
    downs = [column(plan, b, 1, grow) for b in here if not b.upward]
    stem = Block()
    stem.put(symbol, 0, -4.0 if source else 4.0)
    stem.add(_stem(plan, vertex, port, here, -4.0 if source else 4.0))
    on = ups if source else downs
    on.insert(0 if grow > 0 else len(on), stem)
    above = side(ups, grow, clear if d > 0 and came else None)
    below = side(downs, grow, clear if d < 0 and came else None)
    for child, x in (*above, *below):
        block.put(child, x, 0)
    taps = sorted({round(x, 3) for _, x in (*above, *below)} | ({0.0} if came else set()))
    if len(taps) > 1:
        first = here[0].chain.links[0] if here else came.links[0]
        inner = tuple((x, 0.0) for x in taps if not _corner(x, taps, above, below, d if came else 0))
        weight, ends = plan.weight(first, False), ((taps[0], 0), (taps[-1], 0))
        block.add(Line(first.circuit, "", ends, weight, plan.title(vertex), first.line, dots=inner))
    block.wing = bool(above if d > 0 else below)
    catch(plan, block)
    return block


def port_block(plan: Plan, branches: list[Branch], d: int, grow: int, slack: float) -> Block:
    """What leaves one port of a symbol: a column, or a thin line on which several meet."""
    bridges = [branch for branch in branches if branch.form == "bridge"]
    if 0 < len(bridges) < len(branches):
        branches = [branch for branch in branches if branch.form != "bridge"]
    elif len(branches) == 1:
        return column(plan, branches[0], d, grow, slack=slack)
    block = Block()
    low = slack + 2.5 + LEADING * max((len(plan.written(b.chain.links[0], "→")) for b in bridges), default=0)
    placed = side([column(plan, b, d, grow) for b in branches], grow, None)
    for child, x in placed:
        block.put(child, x, d * low)
    taps = [x for _, x in placed]
    link = branches[0].chain.links[0] if branches[0].chain else branches[1].chain.links[0]
    weight, title = plan.weight(link, False), plan.title(branches[0].near[0]) if branches[0].chain else ""
    block.add(Line(link.circuit, "", ((0, 0), (0, d * low)), weight, title, link.line))
    ends = (min(taps), max(taps))
    block.posts += [Post(*ends, d * low, branch) for branch in bridges if branch not in branches]
    if len(taps) > 1:
        block.add(Line(link.circuit, "", ((ends[0], d * low), (ends[1], d * low)), weight, title, link.line,
                       dots=tuple((x, d * low) for x in taps if x not in ends or x == 0.0)))
    return block


def _corner(x: float, taps: list[float], above: Placed, below: Placed, d: int) -> bool:
    """An end of the thin line where only one branch meets it: no dot."""
    count = sum(abs(at - x) < 0.01 for _, at in (*above, *below)) + (abs(x) < 0.01 and d != 0)
    return x in (taps[0], taps[-1]) and count == 1


def _stem(plan: Plan, vertex: Vertex, port: str, here: list[Branch], y: float) -> Line:
    link = here[0].chain.links[0] if here else None
    weight = plan.weight(link, False) if link else "dc"
    return Line(link.circuit if link else "", "", ((0, 0), (0, y)), weight, plan.title(vertex))


def side(blocks: list[Block], grow: int, clear) -> Placed:
    """Blocks of one side of a rail in file order: the first (or, growing to the left, the last)
    at x 0, or beside the line that comes in."""
    if grow > 0:
        return _rightwards(blocks, clear)
    mirrored = _leftwards(list(reversed(blocks)), clear)
    return list(reversed(mirrored))


def _rightwards(blocks: list[Block], clear) -> Placed:
    made: Placed = []
    edge = clear[0] if clear else None
    for block in blocks:
        x = 0.0 if edge is None else max(edge + GAP - block.left, (made[-1][1] if made else 0.0) + TAP)
        made.append((block, x))
        edge = x + block.right
    return made


def _leftwards(blocks: list[Block], clear) -> Placed:
    made: Placed = []
    edge = clear[1] if clear else None
    for block in blocks:
        x = 0.0 if edge is None else min(edge - GAP - block.right, (made[-1][1] if made else 0.0) - TAP)
        made.append((block, x))
        edge = x + block.left
    return made
