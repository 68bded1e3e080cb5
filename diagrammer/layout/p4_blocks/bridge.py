"""A link between two posts at one height, such as the middle points of two strings: one straight line."""

from __future__ import annotations

from diagrammer.frozen import frozen
from diagrammer.layout import conductors
from diagrammer.layout.p4_blocks.block import Block, Extent, boxes_of
from diagrammer.layout.p4_blocks.plan import Branch, Plan
from diagrammer.layout.scene import Line, Text
from diagrammer.layout.tags import SIZE
from diagrammer.layout.texts import LEADING, width

OVER = 0.8  # [mm] base line of its words over the line
FREE = 0.5  # [mm] of both ends, on what the line joins


@frozen
class Post:
    """One end of a link: the taps of its post from `left` to `right` at height y."""

    left: float
    right: float
    y: float
    branch: Branch

    def moved(self, x: float, y: float) -> Post:
        return Post(self.left + x, self.right + x, self.y + y, self.branch)


def bridged(plan: Plan, block: Block) -> None:
    """Draw every link both of whose posts are in the block; what has no free way asks for another try without."""
    pairs: dict[int, list[Post]] = {}
    for post in block.posts:
        pairs.setdefault(post.branch.chain.index, []).append(post)
    for index, posts in pairs.items():
        if len(posts) == 2:
            block.posts = [post for post in block.posts if post not in posts]
            a, b = sorted(posts, key=lambda post: post.left)
            items = _items(plan, a, b)
            if abs(a.y - b.y) > 0.01 or not _free(block, a, b, items):
                plan.met.append(index)
            for item in items:
                block.add(item)


def _items(plan: Plan, a: Post, b: Post) -> list[Line | Text]:
    """The line from post to post, its words over the middle of it."""
    chain = a.branch.chain
    link = chain.links[0]
    ends = (a.right, a.y), (b.left, a.y)
    lines = plan.written(link, "→" if chain.along(link, a.branch.from_a) else "←")
    weight, fault = plan.weight(link, False), plan.fault(link)
    made: list[Line | Text] = [
        Line(link.circuit, link.cable, ends, weight, plan.heading(link), link.line, fault, ends)
    ]
    left = (a.right + b.left - conductors.wide(lines)) / 2
    for number, line in enumerate(reversed(lines)):
        x = left
        for text, bold in line:
            made.append(Text(x, a.y - OVER - number * LEADING, text, SIZE, "wire", "start", bold, link.cable))
            x += width(text, SIZE, bold) + conductors.SPACE
    return made


def _free(block: Block, a: Post, b: Post, items: list[Line | Text]) -> bool:
    """Whether nothing stands in the way of line and words."""
    wanted = [(left + FREE, top, right - FREE, low) for item in items for left, top, right, low in boxes_of(item)]
    inside = all(a.right < left < right < b.left for left, _, right, _ in wanted)
    return inside and not any(_meet(one, other) for other in block.extents() for one in wanted)


def _meet(one: Extent, other: Extent) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
