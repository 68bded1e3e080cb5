"""What stands at the end of a branch: a bar, a panel, or a symbol with everything that leaves it."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout.p1_wiring import RAILS, STORES, Vertex
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p3_ways import CHOOSES, top
from diagrammer.layout.p4_blocks.block import Block, tight
from diagrammer.layout.p4_blocks.column import beside
from diagrammer.layout.p4_blocks.fit import at, body, fitted, flipped, natural
from diagrammer.layout.p4_blocks.metrics import GAP, TEXT
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Shape, Stub, Text
from diagrammer.layout.tags import CAPS, SIZE
from diagrammer.layout.texts import LEADING
from diagrammer.symbols.symbol import Symbol

Spread = tuple[str, Block, float]  # port, what leaves it, and its x
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
    base, stubs = plan.symbol(vertex), plan.sides(vertex)
    upper, lower = _split(plan, vertex, port, others, d)
    side = "up" if d > 0 else "down"
    near, far = (upper, lower) if d > 0 else (lower, upper)
    if natural(base, port, side) is None or plan.tree.kind(vertex) in CHOOSES and base.sides.get(port, side) != side:
        base = flipped(base)
    lone = len(stubs) == 1 and not far and stubs[0].form in ("return", "from") and not stubs[0].id.startswith("x")
    lefts = [] if lone else stubs
    words = plan.lines(vertex)
    slack = max(0.0, (len(words) * LEADING + 0.6 - body(base, [s.id for s in lefts])) / 2)
    beside_ = _columns(plan, near, -d, grow, clear, 0.0)
    beyond = _beyond(plan, vertex, base, port, _columns(plan, far, d, grow, None, slack), beside_, d)
    block = _with_symbol(plan, vertex, base, port, beside_, beyond, stubs, lone, d, slack)
    for _, child, x in beside_:
        block.put(child, x, 0)
    high = block.items[0].symbol.height
    for _, child, x in beyond:
        block.put(child, x, d * high)
    block.wing = bool(beside_)
    return block


def _beyond(
    plan: Plan, vertex: Vertex, base: Symbol, port: str, far: list[Spread], near: list[Spread], d: int,
) -> list[Spread]:
    """Columns on the far side with their x: under the port of the symbol, or in its middle."""
    if len(far) == 1:
        name, child, _ = far[0]
        own = natural(base, name, "down" if d > 0 else "up")
        entry = natural(base, port, "up" if d > 0 else "down") or 0.0
        x = 0.0 if own is None or near else own - entry
        if near and child.left + near[-1][2] / 2 > -6:
            x = near[-1][2] / 2
        return [(name, child, x)]
    if plan.tree.kind(vertex) in CHOOSES and len(far) > 1 and not near:
        middle = (far[0][2] + far[-1][2]) / 2
        return [(name, child, x - middle) for name, child, x in far]
    return far


def _with_symbol(plan, vertex, base, port, near, far, stubs, lone: bool, d: int, slack: float) -> Block:
    """The symbol fitted to its lines, with its words and tags; `lone`: the only tag, opposite the entry."""
    block, node = Block(), plan.node(vertex)
    side = "down" if d > 0 else "up"
    near_ports = [(port, 0.0)] + [(name, x) for name, _, x in near]
    far_ports = [(name, x) for name, _, x in far]
    if lone:
        entry = natural(base, port, "up" if d > 0 else "down") or 0.0
        far_ports = [("2", (natural(base, "2", side) or 0.0) - entry)]
    tops, bottoms = (near_ports, far_ports) if d > 0 else (far_ports, near_ports)
    symbol, centre = fitted(base, tops, bottoms, [] if lone else [stub.id for stub in stubs])
    shape = Shape(vertex[0], symbol, centre, d * symbol.height / 2, 0, plan.title(vertex), node.place.line)
    block.add(shape)
    lift = max(0.0, slack - 0.5) if lone else 0.0
    block.lead = slack + lift
    beside(block, plan.lines(vertex), centre + tight(symbol)[2] + TEXT, shape.y - d * lift, vertex[0])
    for stub in stubs:
        block.add(replace(stub, at=at(shape, "2" if lone else stub.id), side=side if lone else "left"))
    tagged = {name for name, child, _ in near if any(isinstance(item, Stub) for item in child.items)}
    for name, x in near_ports:
        if name.endswith("-") and node.kind.name not in STORES:
            aside = 2.7 if name in tagged else 1.0  # beside a tag's arrow, or its line
            block.add(Text(x - aside, -d * 2.0 + CAPS / 2, "\u2212", SIZE, "value", "end", owner=vertex[0]))
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


def _columns(plan: Plan, branches: list[Branch], d: int, grow: int, clear, slack: float) -> list[Spread]:
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
