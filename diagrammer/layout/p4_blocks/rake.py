"""A panel as a rake: a vertical bar with one horizontal row a way."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import RAILS, Vertex
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.column import column
from diagrammer.layout.p4_blocks.fit import pitch
from diagrammer.layout.p4_blocks.kept import branch_key, kept
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
        feeds = [b for b in branches if b.upward and b.form in ("tree", "tag")]
        feed = min(feeds, key=lambda b: b.form != "tree", default=None)
        if feed:
            block.put(column(plan, feed, -1), 0, 0)
    title = plan.rows(vertex, 50)
    write(block, title, half + 1.0, head + 2.2, vertex[0])
    y = head + len(title) * LEADING + 1.0
    ways = [b for b in branches if b is not feed]
    under = next((b for b in reversed(ways) if not sideways and leads_on(plan, b)), None)
    under = under if under and plan.setting("below") and not plan.setting("wide") else None
    parts = _drawn_legs(plan, [b for b in ways if b is not under], -block.top)
    node = plan.node(vertex)
    x = low = first = 0.0
    for number, mine in enumerate(parts):
        if number:
            x = block.right + 6.0
        low = place_rows(block, mine, y, x) + 2.0 if mine else y
        if number:
            block.add(Bar(vertex[0], (x, 0), (x, low), THICK, plan.title(vertex), node.place.line))
            low = first
        else:
            first = low
    if x:
        block.add(Bar(vertex[0], (0, 0), (x, 0), THICK, plan.title(vertex), node.place.line))
    bottom = _tags(plan, block, vertex, low, sideways)
    if under:
        plan.nested = True
        bottom = max(bottom, block.bottom - 1.0)
        block.put(column(plan, under, 1), 0, bottom)
    block.add(Bar(vertex[0], (0, 0), (0, bottom), THICK, plan.title(vertex), node.place.line))
    return block


def _tags(plan: Plan, block: Block, vertex: Vertex, low: float, sideways: bool) -> float:
    """Tags of the panel's own returns and bonds at its left, or (sideways) at its foot; where its bar ends."""
    stubs = plan.sides(vertex)
    step, half = pitch([s.id for s in stubs]), THICK / 2
    bottom = max(low, step * len(stubs) + 2)
    for number, stub in enumerate(stubs):
        place, side = (-half, 3.0 + step * number), "left"
        if sideways:
            place, side = ((0, bottom), "down") if not number else ((-half, bottom - 5.5 * number), "left")
        block.add(replace(stub, at=place, side=side))
    return bottom


def leg(plan: Plan, vertex: Vertex, branches: list[Branch], top: float) -> Block:
    """Branches of a horizontal bar as rows on a leg that hangs from it."""
    block = Block()
    low = place_rows(block, rows_of(plan, branches, THICK / 2), top + 2.5, 0.0) + 2.0
    block.add(Bar(vertex[0], (0, 0), (0, low), THICK, plan.title(vertex), plan.node(vertex).place.line))
    return block


def legs(plan: Plan, ways: list[Branch]) -> list[list[Branch]]:
    """Ways in file order on as many vertical legs of the bar as their heights need, about alike."""
    return [ways] if len(ways) <= FEW else _parted(plan, ways, rows_of(plan, ways, THICK / 2))


def _drawn_legs(plan: Plan, ways: list[Branch], above: float) -> list[list[Row]]:
    """The same as rows. above: what stands on the panel [mm], which counts once all else was tried."""
    rows = rows_of(plan, ways, THICK / 2)
    tried = bool(plan.setting("wide"))
    parts = [ways] if len(ways) <= FEW and not tried else _parted(plan, ways, rows, above if tried else 0.0)
    return [rows] if len(parts) == 1 else [rows_of(plan, part, THICK / 2) for part in parts]


def _parted(plan: Plan, ways: list[Branch], rows: list[Row], above: float = 0.0) -> list[list[Branch]]:
    heights = [max(ROW, made.block.bottom - made.block.top + 0.6) for made in rows]
    return shared(ways, heights, -(-sum(heights) // max(60.0, plan.setting("tall") - above)))


def shared(ways: list[Branch], heights: list[float], count: float) -> list[list[Branch]]:
    """Ways in so many parts that their heights are about alike."""
    each, used = sum(heights) / max(count, 1), 0.0
    made: list[list[Branch]] = [[]]
    for way, high in zip(ways, heights):
        if made[-1] and used + high / 2 > each and len(made) < count:
            made.append([])
            used = 0.0
        made[-1].append(way)
        used += high
    return made


FEW = 6  # ways that go on one leg as long as anything else helps


def leads_on(plan: Plan, branch: Branch) -> bool:
    """Whether a way feeds more than a load: a sub panel, a converter."""
    if branch.form != "tree" or branch.upward:
        return False
    kind = plan.node(branch.far[0]).kind
    return kind.name in RAILS or kind.sort == "end"


def rows_of(plan: Plan, branches: list[Branch], start: float) -> list[Row]:
    """The rows of branches, their devices and loads in line below each other."""
    return kept(plan, ("rows", start, *map(branch_key, branches)), lambda: _rows(plan, branches, start))


def _rows(plan: Plan, branches: list[Branch], start: float) -> list[Row]:
    grid = Grid()
    drafts = [row(plan, branch, start) for branch in branches]
    grid.take(drafts)
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
