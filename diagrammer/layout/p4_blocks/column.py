"""A branch drawn as a column: from a rail, down or up, through its devices to what stands at its end."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout import conductors, texts
from diagrammer.layout.conductors import Pieces
from diagrammer.layout.p1_wiring import Link
from diagrammer.layout.p2_chains import Member
from diagrammer.layout.p4_blocks.block import Block, Tail, boxes_of
from diagrammer.layout.p4_blocks.fit import fitted, flipped
from diagrammer.layout.p4_blocks.kept import branch_key, kept
from diagrammer.layout.p4_blocks.metrics import BARE, BOLTED, TEXT, WRITTEN
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Line, Point, Shape, Text
from diagrammer.layout.texts import LEADING, width
from diagrammer.layout.tags import CAPS, SIZE, STROKE


def column(plan: Plan, branch: Branch, d: int, grow: int = 1, wing: bool = False, start: float = 0.0,
           slack: float = 0.0) -> Block:
    """A branch from the origin downwards (d 1) or upwards (d -1).

    grow: the side to which what hangs at its end spreads. wing: what stands above the end may
    reach past the origin, beside the line. start: half the thickness of the rail. slack: line
    before anything is written at it.
    """
    if branch.chain is None or branch.form == "tag":
        return _short(plan, branch, Block(), d, start)
    if branch.form == "bridge":  # its post has no room for it: another try without it
        plan.met.append(branch.chain.index)
        branch = replace(branch, form="owner")
    key = "column", branch_key(branch), branch.key, d, grow, wing, start, slack
    return kept(plan, key, lambda: _column(plan, branch, d, grow, wing, start, slack))


def _column(plan: Plan, branch: Branch, d: int, grow: int, wing: bool, start: float, slack: float) -> Block:
    block = Block()
    links, members = branch.chain.walk(branch.from_a)
    y = start
    for link, member in zip(links, members):
        shape, words, high = _device(plan, member, d)
        after = max(0.0, (high - shape.symbol.height) / 2)
        y = _segment(plan, block, branch, link, y, d, slack, after)
        y = _place(plan, block, member, shape, words, y, d)
        slack = after
    _finish(plan, branch, block, links[-1], y, d, grow, wing, slack)
    return block


def _short(plan: Plan, branch: Branch, block: Block, d: int, start: float) -> Block:
    if branch.chain is None:
        block.tails.append(Tail(0, start, branch.key, None))
    else:
        stub = plan.reference(branch.chain, branch.from_a, branch.far[0])
        block.add(replace(stub, at=(0, d * start), side="down" if d > 0 else "up"))
    return block


def _finish(
    plan: Plan, branch: Branch, block: Block, link: Link, y: float, d: int, grow: int, wing: bool, slack: float,
) -> None:
    from diagrammer.layout.p4_blocks.node import node_block

    long = slack + _length(plan, link)
    way = _way(branch, link, d)
    if branch.form == "tail":
        low = y + long + 1
        line = _line(plan, branch, link, [(0, d * y), (0, d * low)], d, slack)
        _words(plan, block, link, y + slack, d, way)
        block.tails.append(Tail(0, d * low, branch.key, line, branch.chain.index))
        block.room(-1, min(0, d * low), 1, max(0, d * low))
        return
    if branch.form == "owner":
        low = y + long
        block.add(_line(plan, branch, link, [(0, d * y), (0, d * low)], d, slack))
        _words(plan, block, link, y + slack, d, way)
        stub = plan.reference(branch.chain, branch.from_a, branch.far[0])
        block.add(replace(stub, at=(0, d * low), side="down" if d > 0 else "up"))
        return
    clear = max(block.right, _needed(plan, link)), min(block.left, -1.5)
    child = node_block(plan, branch.far[0], branch.far[1], branch.chain, d, grow, clear)
    plan.apart(branch, child.right - child.left, child.bottom - child.top)
    low = y + long + child.lead
    if not (wing and child.wing):
        top = child.top if d > 0 else -child.bottom
        low = max(low, 1.5 - top) if child.wing else max(low, y + 1.5 - top)
    block.add(_line(plan, branch, link, [(0, d * y), (0, d * low)], d, slack))
    _words(plan, block, link, y + slack, d, way)
    block.put(child, 0, d * low)
    block.wing = child.wing and wing


def _length(plan: Plan, link: Link) -> float:
    if not link.cable:
        return BOLTED
    lines = len(plan.written(link, "↓"))
    return WRITTEN + LEADING * max(0, lines - 1) if lines or plan.cores(link) else BARE


def _way(branch: Branch, link: Link, d: int) -> str:
    """The arrow from a link's a to its b."""
    return "↓" if branch.chain.along(link, branch.from_a) == (d > 0) else "↑"


def _needed(plan: Plan, link: Link) -> float:
    """Room right of a line for what is written at it."""
    lines = plan.written(link, "↓")
    return _words_x(plan, link) + conductors.wide(lines) if lines else 1.5


def _segment(
    plan: Plan, block: Block, branch: Branch, link: Link, y: float, d: int, before: float, after: float,
) -> float:
    low = y + before + _length(plan, link) + after
    block.add(_line(plan, branch, link, [(0, d * y), (0, d * low)], d, before))
    _words(plan, block, link, y + before, d, _way(branch, link, d))
    return low


def _line(plan: Plan, branch: Branch, link: Link, points: list[Point], d: int, slack: float) -> Line:
    signal = branch.chain.signal
    fault = plan.fault(link)
    marks = ()
    if plan.written(link, "↓") and plan.cores(link):
        y = points[0][1] + d * (slack + _length(plan, link) / 2)
        marks = (((0, y), plan.cores(link)),)
    return Line(
        link.circuit, link.cable, tuple(points), plan.weight(link, signal),
        plan.heading(link), link.line, fault, marks=marks,
    )


def _words(plan: Plan, block: Block, link: Link, y: float, d: int, way: str) -> None:
    lines = plan.written(link, way)
    top = d * (y + _length(plan, link) / 2) + CAPS / 2 - (len(lines) - 1) * LEADING / 2
    for number, line in enumerate(lines):
        at_line(block, line, _words_x(plan, link), top + number * LEADING, link.cable)


def at_line(block: Block, line: Pieces, x: float, y: float, cable: str) -> None:
    """One line of what is written at a conductor."""
    for text, bold in line:
        block.add(Text(x, y, text, SIZE, "wire", "start", bold, cable))
        x += width(text, SIZE, bold) + conductors.SPACE


def _words_x(plan: Plan, link: Link) -> float:
    cores = plan.cores(link)
    return STROKE + 0.3 + width(cores, SIZE) + 1.4 if cores else TEXT


def _device(plan: Plan, member: Member, d: int) -> tuple[Shape, list[tuple[str, bool]], float]:
    """The symbol of a device in a column, its words, and the height both take."""
    vertex = member.vertex
    symbol = plan.symbol(vertex)
    stubs = plan.sides(vertex)
    enter, leave = (member.enter, member.leave) if d > 0 else (member.leave, member.enter)
    if symbol.ports.get(enter, (0, -1))[1] > 0 and plan.tree.kind(vertex) in ("diode", "isolator", "bms"):
        symbol = flipped(symbol)
    symbol, centre = fitted(symbol, [(f"{enter}|t", 0.0)], [(f"{leave}|b", 0.0)], [stub.id for stub in stubs])
    shape = Shape(vertex[0], symbol, centre, 0, 0, plan.title(vertex), plan.node(vertex).place.line)
    words = plan.lines(vertex)
    return shape, words, max(symbol.height, len(words) * texts.LEADING + 0.6)


def _place(plan: Plan, block: Block, member: Member, shape: Shape, words, y: float, d: int) -> float:
    """Put a device with its upper (or lower) port at y; returns the height of its other port."""
    centre = d * (y + shape.symbol.height / 2)
    placed = replace(shape, y=centre)
    block.add(placed)
    beside(block, words, boxes_of(placed)[0][2] + TEXT, centre, member.vertex[0])
    side_tags(plan, block, placed, member.vertex)
    return y + shape.symbol.height


def beside(block: Block, words: list[tuple[str, bool]], x: float, middle: float, owner: str) -> None:
    """Lines of words, their middle at a height."""
    y = middle - (len(words) - 1) * texts.LEADING / 2 + CAPS / 2
    for number, (text, bold) in enumerate(words):
        role = "designation" if bold else "name" if number < 2 else "value"
        block.add(Text(x, y + number * texts.LEADING, text, SIZE, role, "start", bold, owner))


def side_tags(plan: Plan, block: Block, shape: Shape, vertex, skip: int = 0) -> None:
    """Tags of returns, bonds and leads at the left of a symbol."""
    from diagrammer.layout.p4_blocks.fit import at

    for stub in plan.sides(vertex)[skip:]:
        side = "down" if shape.turn else "left"
        block.add(replace(stub, at=at(shape, stub.id), side=side))
