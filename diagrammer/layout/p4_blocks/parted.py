"""A bar that outgrows a sheet, in parts that hang together by references."""

from __future__ import annotations

from diagrammer.layout import sheet as sheets
from diagrammer.layout.p1_wiring import Vertex
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.metrics import GAP, OVER, TAP, TEXT, THICK
from diagrammer.layout.p4_blocks.plan import PLACE, Plan
from diagrammer.layout.scene import Bar, Stub
from diagrammer.layout.tags import SIZE, tag
from diagrammer.layout.texts import LEADING, width

ASIDE = 45.0  # [mm] that a bar which is not divided may stand right of the sheet's edge
BESIDE = 75.0  # [mm] of a sheet's width that the bar's references and what reaches past its taps may take


def part_reference(plan: Plan, root: Vertex, number: int, end: str, point, side_: str) -> Stub:
    """One end of the break between two parts of a bar."""
    name, other = f"x-{root[0]}-{number}", "b" if end == "a" else "a"
    form = "to" if end == "a" else "from"
    return Stub(f"{name}{end}", point, side_, plan.called(root) + PLACE, form, root[0], f"{name}{other}")


def shares(blocks: list[Block], most: float) -> list[list[Block]]:
    """Columns in file order, as many to a part as `most` [mm] takes."""
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


def sheet_shares(plan: Plan, blocks: list[Block]) -> list[list[Block]]:
    """Columns under a bar in as many parts as the width of a sheet asks for; one part where there are no sheets."""
    size = plan.options.size
    wide = sum(max(block.right - block.left, TAP) + GAP for block in blocks)
    if not size or wide <= sheets.area(size).width - ASIDE:
        return [blocks]
    return shares(blocks, sheets.area(size).width - BESIDE)


def past(plan: Plan, block: Block, root: Vertex, right: float, start: float = 0.0) -> float:
    """Where a bar may end so that its reference is clear of what hangs on it, and of its name; that begins at `start`."""
    name = max(sum(width(text, SIZE, bold) + 1.0 for text, bold in row) for row in plan.rows(root, 40))
    beside = (r + 2.0 for _, top, r, bottom in block.extents() if top < 4 and bottom > -4)
    return max([right, start + TEXT + 0.3 + name, *beside])


def reference_end(plan: Plan, root: Vertex, right: float) -> float:
    """How far the reference at the right end of a bar's first part reaches."""
    box = tag(part_reference(plan, root, 0, "a", (right, 0.0), "right")).box
    return box.x + box.width


def continued(plan: Plan, block: Block, root: Vertex, right: float, rest: list[list[Block]]) -> None:
    """Further parts of a bar whose first one, in `block`, ends at `right`: they stand apart."""
    from diagrammer.layout.p4_blocks.catch import loose
    from diagrammer.layout.p4_blocks.rail import side, write

    if rest:
        block.add(part_reference(plan, root, 0, "a", (right, 0.0), "right"))
    for number, columns in enumerate(rest):
        part, placed = Block(), side(columns, 1, None)
        for child, x in placed:
            part.put(child, x, 0)
        end = max(max(x for _, x in placed) + OVER, 12 - OVER)
        end = past(plan, part, root, end) if number + 1 < len(rest) else end
        part.add(Bar(root[0], (-OVER, 0), (end, 0), THICK, plan.title(root), plan.node(root).place.line))
        rows = plan.rows(root, 40)
        write(part, rows, TEXT + 0.3, -THICK / 2 - 0.9 - (len(rows) - 1) * LEADING, root[0])
        part.add(part_reference(plan, root, number, "b", (-OVER, 0.0), "left"))
        if number + 1 < len(rest):
            part.add(part_reference(plan, root, number + 1, "a", (end, 0.0), "right"))
        loose(plan, part)
        block.parts += [part, *part.parts]
