"""Fifth phase, the main bar: one thick line with all its columns, in parts where it outgrows a sheet.

Taps stand in file order, the bank at the left end, what makes ac at the right.
"""

from __future__ import annotations

from diagrammer.layout.p1_wiring import Vertex
from diagrammer.layout.p3_ways import leads_to_store
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.catch import catch, land
from diagrammer.layout.p4_blocks.column import column
from diagrammer.layout.p4_blocks.metrics import GAP, OVER, THICK
from diagrammer.layout.p4_blocks.parted import BESIDE, part_reference, shares
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.p4_blocks.rail import bar_tag, tag_columns, write
from diagrammer.layout.p4_blocks.rake import leg, legs
from diagrammer.layout.p5_order import Placed, beside_wings, positions
from diagrammer.layout.scene import Bar
from diagrammer.layout.tags import SIZE
from diagrammer.layout.texts import LEADING, width

MAINS = frozenset(("inverter", "inverter charger", "pv inverter"))


def main_bar(plan: Plan, root: Vertex, asked: str) -> list[Placed]:
    """The main bar with all its columns, in as many parts as the plan's width asks for."""
    half = THICK / 2
    branches = plan.branches(root)
    ups = [column(plan, b, -1, start=half) for b in branches if b.upward]
    downs = [b for b in branches if not b.upward]
    banks = [b for b in downs if is_bank(plan, b)]
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
    rows = [shares(blocks, plan.wide - BESIDE) for blocks in (ups, downs)]
    count = max(1, *map(len, rows))
    return [tuple(row[n] if n < len(row) else [] for row in rows) for n in range(count)]


def _part(
    plan: Plan, root: Vertex, asked: str, number: int, count: int, ups: list[Block], below: list[Block],
) -> Placed:
    """One part of the main bar; further parts hang together by references."""
    title = plan.rows(root, 60)
    wide = max(sum(width(t, SIZE, bold) + 1 for t, bold in row) for row in title)
    xs_up, xs_down, made = positions(plan, ups, below, asked)
    block = made.block
    left = (xs_down[0] if xs_down else xs_up[0] if xs_up else 0.0) - OVER
    if ups:
        shift = max(0.0, left + wide + GAP - min(x + up.left for x, up in zip(xs_up, ups)))
        xs_up = [x + shift for x in xs_up]
        xs_up, xs_down = beside_wings(ups, below, xs_up, xs_down)
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
        block.add(part_reference(plan, root, number - 1, "b", (left, 0.0), "left"))
    if number + 1 < count:
        block.add(part_reference(plan, root, number, "a", (right, 0.0), "right"))
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


def is_bank(plan: Plan, branch: Branch) -> bool:
    return branch.form == "tree" and leads_to_store(plan.tree, branch.chain, branch.from_a)


def _makes_ac(plan: Plan, branch: Branch) -> bool:
    return branch.form == "tree" and plan.tree.kind(branch.far[0]) in MAINS
