"""A branch drawn as a row: from a vertical bar to the right, device and load in line, words beside."""

from __future__ import annotations

from dataclasses import field, replace

from diagrammer.frozen import changing
from diagrammer.layout import conductors
from diagrammer.layout.p1_wiring import Link
from diagrammer.layout.p4_blocks.block import Block, tight
from diagrammer.layout.p4_blocks.column import at_line, side_tags
from diagrammer.layout.p4_blocks.fit import fitted
from diagrammer.layout.p4_blocks.leaf import load_length, return_room, is_leaf, leaf
from diagrammer.layout.p4_blocks.metrics import TEXT
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Line, Shape, Text
from diagrammer.layout.tags import CAPS, SIZE, STROKE
from diagrammer.layout.texts import LEADING, width
from diagrammer.symbols.symbol import Symbol

USUAL = 14.0  # [mm] of a load with its return's tag; a longer tag moves only its own row's words
CLEAR = 2.0  # [mm] from the bar to what stands at the end of a row
WIRE, DEVICE = -0.8, -3.45  # base lines over the line: of a cable's size, of a device's name
UNDER = 1.0 + CAPS  # base line of what else is written at a cable, under its line


@changing
class Grid:
    """What rows of one rake share: middles of devices, where loads stand and where words begin."""

    middles: list[float] = field(default_factory=list)
    load: float = 0.0
    words: float = 0.0

    def take(self, rows: list[Row]) -> None:
        """Middles of all first devices, then of all second ones ...: each apart from the one before
        by what is written at the line and at the devices."""
        for number in range(max((len(row.devices) for row in rows), default=0)):
            mine = [row for row in rows if number < len(row.devices)]
            self.middles.append(max(self._middle(row, number) for row in mine))

    def _middle(self, row: Row, number: int) -> float:
        (length, words), line = row.devices[number], row.pieces[number]
        if not number:
            return row.start + max(line + length / 2, words / 2 + 0.8)
        before, said = row.devices[number - 1]
        return self.middles[number - 1] + max((before + length) / 2 + line, (said + words) / 2 + 1.6)

    def end(self, row: Row) -> None:
        """Where a row's line ends at the earliest; loads of all rows stand at the furthest."""
        reach = self.reach(row)
        if row.leaf:
            self.load, self.words = max(self.load, reach), max(self.words, min(row.tail, USUAL))

    def reach(self, row: Row) -> float:
        if not row.devices:
            return row.start + row.pieces[-1]
        length, words = row.devices[-1]
        past = words / 2 + (0.8 if row.tall else -1.5)
        return self.middles[len(row.devices) - 1] + max(length / 2 + row.pieces[-1], past)


@changing
class Row:
    plan: Plan
    branch: Branch
    start: float
    links: tuple = ()
    members: tuple = ()
    pieces: list[float] = field(default_factory=list)
    symbols: list[Symbol] = field(default_factory=list)  # of the devices
    devices: list[tuple[float, float]] = field(default_factory=list)  # length of symbol, width of words
    leaf: bool = False
    tall: bool = False  # a load as high as the words over a device
    tail: float = 0.0  # load symbol with its return, up to the words
    block: Block = field(default_factory=Block)

    def drawn(self, grid: Grid) -> Row:
        draw(self, grid)
        return self


def row(plan: Plan, branch: Branch, start: float) -> Row:
    """Measure a branch; `drawn` draws it once the rake's grid is known."""
    if branch.form in ("tail", "bridge"):  # no row lands on the bar above or beside: another try without it
        plan.met.append(branch.chain.index)
        branch = replace(branch, form="owner")
    made = Row(plan, branch, start)
    if branch.form == "tag" or branch.chain is None:
        made.pieces = [0.0]
        return made
    made.links, made.members = branch.chain.walk(branch.from_a)
    made.pieces = [_piece(plan, link) for link in made.links]
    made.symbols = [_turned(plan, member) for member in made.members]
    made.devices = [
        (symbol.height, sum(width(t, SIZE, b) + 1 for t, b in _above(plan, m.vertex)))
        for symbol, m in zip(made.symbols, made.members)
    ]
    if branch.form == "tree":
        made.leaf = is_leaf(plan, branch)
        if made.leaf:
            made.tall = plan.symbol(branch.far[0]).width > 5.5
            made.tail = load_length(plan, branch) + return_room(plan, branch)
    return made


def _piece(plan: Plan, link: Link) -> float:
    lines, cores = plan.written(link, "→"), plan.cores(link)
    if not lines:
        return 2.0 if not link.cable else 3.0
    return 2.4 + conductors.wide(lines) + (STROKE * 2 + width(cores, SIZE) + 1.6 if cores else 0)


def _above(plan: Plan, vertex) -> list[tuple[str, bool]]:
    lines = plan.lines(vertex, 40)
    return lines[:1] + lines[1:3]


def draw(row: Row, grid: Grid) -> None:
    plan, block = row.plan, row.block
    if not row.links:
        stub = plan.reference(row.branch.chain, row.branch.from_a, row.branch.far[0])
        block.add(replace(stub, at=(row.start, 0), side="right"))
        return
    x = row.start
    for link, member, symbol, middle in zip(row.links, row.members, row.symbols, grid.middles):
        left = middle - symbol.height / 2
        _piece_line(plan, row, link, x, left)
        node = plan.node(member.vertex)
        shape = Shape(member.vertex[0], symbol, middle, 0, 270, plan.title(member.vertex), node.place.line)
        block.add(shape)
        _title(block, _above(plan, member.vertex), middle, min(DEVICE, -_rise(symbol) - 1.0), member.vertex[0])
        side_tags(plan, block, shape, member.vertex)
        x = left + symbol.height
    _end(plan, row, grid, x)


def _rise(symbol) -> float:
    """How far a turned symbol reaches above the line: what was its right side."""
    return tight(symbol)[2]


def _turned(plan: Plan, member) -> Symbol:
    symbol = plan.symbol(member.vertex)
    stubs = plan.sides(member.vertex)
    return fitted(symbol, [(f"{member.enter}|t", 0.0)], [(f"{member.leave}|b", 0.0)], [s.id for s in stubs], True)[0]


def _title(block: Block, words, middle: float, y: float, owner: str) -> None:
    total = sum(width(t, SIZE, b) for t, b in words) + len(words) - 1
    x = middle - total / 2
    for number, (text, bold) in enumerate(words):
        block.add(Text(x, y, text, SIZE, "designation" if bold else "value", "start", bold, owner))
        x += width(text, SIZE, bold) + 1.0


def _piece_line(plan: Plan, row: Row, link: Link, x: float, end: float) -> None:
    way = "→" if row.branch.chain.along(link, row.branch.from_a) else "←"
    lines, cores = plan.written(link, way), plan.cores(link)
    marks = ()
    at_x = x + 1.0
    if lines and cores:
        marks = (((x + STROKE + 0.8, 0.0), cores),)
        at_x = x + STROKE * 2 + 1.2 + width(cores, SIZE) + 1.2
    row.block.add(Line(
        link.circuit, link.cable, ((x, 0), (end, 0)), plan.weight(link, row.branch.chain.signal),
        plan.heading(link), link.line, plan.fault(link), marks=marks,
    ))
    for number, line in enumerate(lines):  # the first above the line, others below
        y = WIRE if not number else UNDER + (number - 1) * LEADING
        at_line(row.block, line, at_x, y, link.cable)


def _end(plan: Plan, row: Row, grid: Grid, x: float) -> None:
    from diagrammer.layout.p4_blocks.row_end import end_block

    branch, link = row.branch, row.links[-1]
    least = grid.reach(row)
    if branch.form == "owner":
        end = max(least, grid.load)
        _piece_line(plan, row, link, x, end)
        stub = plan.reference(branch.chain, branch.from_a, branch.far[0])
        row.block.add(replace(stub, at=(end, 0), side="right"))
        return
    if row.leaf:
        end = max(grid.load, least)
        _piece_line(plan, row, link, x, end)
        _load(plan, row, branch.far[0], branch.far[1], end, grid)
        return
    end = max(least, 0.0 if _complex(plan, branch) else grid.load)
    child = end_block(plan, branch)
    end = max(end, row.start + CLEAR - child.left)  # nothing of it reaches back to the bar
    plan.apart(branch, child.right - child.left, child.bottom - child.top)
    _piece_line(plan, row, link, x, end)
    row.block.put(child, end, 0)


def _complex(plan: Plan, branch: Branch) -> bool:
    return not plan.node(branch.far[0]).kind.uses


def _load(plan: Plan, row: Row, vertex, port: str, x: float, grid: Grid) -> None:
    words = x + max(grid.words, row.tail) + TEXT
    block = leaf(plan, vertex, port, words - x)
    row.block.put(block, x, 0)
