"""What stands at the end of a branch: a bar, a panel, or a symbol with everything that leaves it."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import RAILS, STORES, Vertex
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p3_ways import top
from diagrammer.layout.p4_blocks.block import Block, tight
from diagrammer.layout.p4_blocks.column import beside
from diagrammer.layout.p4_blocks.fit import at, body, fitted, flipped, natural
from diagrammer.layout.p4_blocks.metrics import GAP, TEXT
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Shape, Text
from diagrammer.layout.tags import CAPS, SIZE
from diagrammer.layout.texts import LEADING

Clear = tuple[float, float]  # room right and left of the line that comes in


def node_block(
    plan: Plan, vertex: Vertex, port: str, came: Chain | None, d: int, grow: int = 1, clear: Clear = (1.5, -1.5),
) -> Block:
    """The block of a vertex reached at `port` from above (d 1) or below (d -1).

    Its origin is the point where the line that leads to it ends.
    """
    from diagrammer.layout.p4_blocks.rail import bar_block, thin_block
    from diagrammer.layout.p4_blocks.rake import rake_block

    branches = plan.branches(vertex, came)
    kind = plan.tree.kind(vertex)
    if kind in RAILS or kind == "joint" and len(branches) > 1:
        if as_rake(plan, vertex, branches, d):
            return rake_block(plan, vertex, branches, came)
        return bar_block(plan, vertex, branches, d, grow, clear, came is not None)
    here = [b for b in branches if b.port == port]
    others = [b for b in branches if b.port != port]
    if here or d < 0 and kind in STORES and others:
        symbol = symbol_block(plan, vertex, port, others, 1 if not plan.is_source(vertex) else -1, grow, (1.5, -1.5))
        return thin_block(plan, vertex, port, symbol, here, d, grow, clear, came)
    return symbol_block(plan, vertex, port, others, d, grow, clear)


def as_rake(plan: Plan, vertex: Vertex, branches: list[Branch], d: int) -> bool:
    """Panels with rows only, and bars of many loads, are rakes; R bars and bars in between are not."""
    if d < 0 or not branches or vertex not in plan.tree.wiring.vertices:
        return False
    if plan.tree.kind(vertex) in ("panel", "ac panel"):
        return sum(b.upward and b.form == "tree" for b in branches) <= 1
    return len(branches) >= 4 and not any(b.upward for b in branches) and all(
        plan.node(b.far[0]).kind.uses or b.form != "tree" for b in branches
    )


def symbol_block(
    plan: Plan, vertex: Vertex, port: str, others: list[Branch], d: int, grow: int, clear: Clear,
) -> Block:
    """A symbol entered at `port`, what leaves its other ports in columns above and below it."""
    block = Block()
    base = plan.symbol(vertex)
    kind = plan.node(vertex).kind
    stubs = plan.sides(vertex)
    entry_top = d > 0
    upper, lower = _split(plan, vertex, port, others, d)
    if natural(base, port, "up" if entry_top else "down") is None:
        base = flipped(base)
    tail_stub = None
    if stubs and stubs[0].form in ("return", "from") and not stubs[0].id.startswith("x") and not (lower if entry_top else upper) and len(stubs) == 1:
        tail_stub, stubs = stubs[0], stubs[1:]
    near, far = (upper, lower) if entry_top else (lower, upper)
    words = plan.lines(vertex)
    slack = max(0.0, (len(words) * LEADING + 0.6 - body(base, [s.id for s in stubs])) / 2)
    xs_near = _columns(plan, near, -d, grow, clear, 0.0)
    xs_far = _columns(plan, far, d, grow, None, slack)
    own_near = natural(base, port, "up" if entry_top else "down") or 0.0
    if len(xs_far) == 1:
        name, child, _ = xs_far[0]
        own = natural(base, name, "down" if entry_top else "up")
        x = 0.0 if own is None or xs_near else own - own_near
        if xs_near and child.left + xs_near[-1][2] / 2 > -6:
            x = xs_near[-1][2] / 2
        xs_far = [(name, child, x)]
    elif kind.name in ("selector", "transfer") and len(xs_far) > 1 and not xs_near:
        middle = (xs_far[0][2] + xs_far[-1][2]) / 2
        xs_far = [(name, child, x - middle) for name, child, x in xs_far]
    near_ports = [(port, 0.0)] + [(name, x) for name, _, x in xs_near]
    far_ports = [(name, x) for name, _, x in xs_far]
    if tail_stub:
        far_ports = [("2", (natural(base, "2", "down" if entry_top else "up") or 0.0) - own_near)]
    tops, bottoms = (near_ports, far_ports) if entry_top else (far_ports, near_ports)
    symbol, centre = fitted(base, tops, bottoms, [stub.id for stub in stubs])
    high = symbol.height
    node = plan.node(vertex)
    shape = Shape(vertex[0], symbol, centre, d * high / 2, 0, plan.title(vertex), node.place.line)
    block.add(shape)
    lift = max(0.0, slack - 0.5) if tail_stub else 0.0
    block.lead = slack + lift
    beside(block, words, centre + tight(symbol)[2] + TEXT, shape.y - d * lift, vertex[0])
    for stub in stubs:
        block.add(replace(stub, at=at(shape, stub.id), side="left"))
    if tail_stub:
        block.add(replace(tail_stub, at=at(shape, "2"), side="down" if entry_top else "up"))
    for _, child, x in xs_near:
        block.put(child, x, 0)
    for _, child, x in xs_far:
        block.put(child, x, d * high)
    for name, x in near_ports:
        if name.endswith("-") and node.kind.name not in STORES:
            block.add(Text(x - 1.0, -d * 2.0 + CAPS / 2, "\u2212", SIZE, "value", "end", owner=vertex[0]))
    block.wing = bool(xs_near)
    return block


def _split(plan: Plan, vertex: Vertex, port: str, others: list[Branch], d: int) -> tuple[list[Branch], list[Branch]]:
    """Branches at the top and at the bottom of a symbol."""
    kind = plan.node(vertex).kind
    upper, lower = [], []
    for branch in others:
        spot = (vertex, branch.port)
        if branch.port == "main-" or branch.form == "tail":
            is_up = False
        elif kind.sort == "through":
            is_up = d < 0
        elif kind.name in ("selector", "transfer"):
            same = top(plan.tree, spot) == top(plan.tree, (vertex, port))
            is_up = (d > 0) == same
        else:
            is_up = top(plan.tree, spot)
        (upper if is_up else lower).append(branch)
    return upper, lower


def _columns(plan: Plan, branches: list[Branch], d: int, grow: int, clear, slack: float) -> list[tuple[str, Block, float]]:
    """What leaves each port, beside each other: (port, block, x); with `clear`, all beside the line
    that comes in. Of several the outer ones spread outwards."""
    from diagrammer.layout.p4_blocks.rail import port_block

    ports: dict[str, list[Branch]] = {}
    for branch in branches:
        ports.setdefault(branch.port, []).append(branch)
    if clear is None or grow > 0:
        return _spread(plan, ports, d, grow, clear, slack)
    made: list[tuple[str, Block, float]] = []
    edge = clear[1]
    for name, mine in reversed(ports.items()):
        child = port_block(plan, mine, d, grow, slack)
        x = min(edge - GAP - child.right, (made[-1][2] if made else 0.0) - 8)
        made.append((name, child, x))
        edge = x + child.left
    return made[::-1]


def _spread(plan: Plan, ports, d: int, grow: int, clear, slack: float) -> list[tuple[str, Block, float]]:
    from diagrammer.layout.p4_blocks.rail import port_block

    made: list[tuple[str, Block, float]] = []
    edge = None if clear is None else clear[0]
    for number, (name, mine) in enumerate(ports.items()):
        outward = -1 if number == 0 and len(ports) > 1 and clear is None else grow if len(ports) == 1 else 1
        child = port_block(plan, mine, d, outward, slack)
        x = 0.0 if edge is None else max(edge + GAP - child.left, (made[-1][2] if made else 0.0) + 8)
        made.append((name, child, x))
        edge = x + child.right
    return made
