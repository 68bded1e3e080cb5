"""A system as a scene: every phase in turn."""

from __future__ import annotations

from diagrammer.layout import legend, sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import wiring
from diagrammer.layout.p2_chains import chains
from diagrammer.layout.p3_returns import returns
from diagrammer.layout.p3_tree import tree
from diagrammer.layout.p4_blocks.plan import Plan
from diagrammer.layout.p5_place import piece
from diagrammer.layout.scene import Bar, Line, Scene, Shape, Sheet, Stub, Text
from diagrammer.layout.texts import cable, designations
from diagrammer.netlist.model import System


def draw(system: System, marks: tuple[Mark, ...] = (), options: Options = Options()) -> Scene:
    wired = wiring(system)
    forest = tree(wired, chains(wired, wired.links))
    cables = {k: v for c in system.circuits for k, v in cable(wired, c.name).items() if v}
    plan = Plan(forest, returns(forest), options, designations(system), cables)
    roots = [r for r in forest.roots if r in wired.vertices]
    made = [piece(plan, root, options.engine) for root in [*roots, *plan.returns.roots]]
    area = sheets.area(options.size)
    items = []
    x, y, high = area.x, area.y, 0.0
    for p in made:
        b = p.block
        if x + b.right - b.left > area.x + area.width and x > area.x:
            x, y, high = area.x, y + high + 6, 0.0
        items += b.flat(x - b.left, y - b.top)
        x += b.right - b.left + 8
        high = max(high, b.bottom - b.top)
    shapes = tuple(i for i in items if isinstance(i, Shape))
    f = sheets.furnish(options.size, 1, 1, {"title": system.title, **options.block}, (), legend.used(shapes))
    s = Sheet(1, 1, options.size, f.width, f.height, system.title, shapes,
              tuple(i for i in items if isinstance(i, Bar)), tuple(i for i in items if isinstance(i, Line)),
              tuple(i for i in items if isinstance(i, Stub)),
              (*(i for i in items if isinstance(i, Text)), *f.texts), (), f.rows, f.rules, f.legend)
    return Scene(system.title, "", (s,), made[0].engine)
