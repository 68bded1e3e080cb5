"""A system as a scene: every phase in turn."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from diagrammer.layout import gates, legend, sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import Vertex, Wiring, wiring
from diagrammer.layout.p2_chains import Chain, chains
from diagrammer.layout.p3_returns import returns
from diagrammer.layout.p3_tree import tree
from diagrammer.layout.p4_blocks.block import Block
from diagrammer.layout.p4_blocks.metrics import ROW
from diagrammer.layout.p4_blocks.plan import PLACE, Plan
from diagrammer.layout.p5_place import Placed, piece
from diagrammer.layout.p6_pages import Page, alone, cut, pages
from diagrammer.layout.scene import Bar, Line, Scene, Shape, Sheet, Stub, Text
from diagrammer.layout.texts import cable, designations
from diagrammer.netlist.model import System

TRIES = 14  # sub blocks that may be stood apart


@dataclass
class Draft:
    """One try: pieces of a forest with the chains cut so far."""

    plan: Plan
    roots: list[Vertex]
    pieces: list[Placed]
    sizes: list[dict]
    engines: list[str] = field(default_factory=list)

    @property
    def blocks(self) -> list[Block]:
        return [p.block for p in self.pieces]


def draw(system: System, marks: tuple[Mark, ...] = (), options: Options = Options()) -> Scene:
    """The one-line diagram of a system on as many sheets as it needs, its gates computed."""
    wired = wiring(system)
    lines = chains(wired, wired.links)
    draft = fitted(wired, lines, marks, options)
    scene = _scene(system, draft, marks, options)
    remarks = [r for p in draft.pieces for r in p.remarks]
    return replace(scene, remarks=(*dict.fromkeys(remarks), *(str(f) for f in gates.faults(scene))))


def fitted(wired: Wiring, lines: list[Chain], marks: tuple[Mark, ...], options: Options) -> Draft:
    """Pieces that each fit on a sheet: sub panels below or beside, then standing apart."""
    draft = _draft(wired, lines, marks, options, set(), True)
    if not options.size or not _wrong(draft, options):
        return draft
    other = _draft(wired, lines, marks, options, set(), False)
    if not _wrong(other, options):
        return other
    done: set[int] = set()
    for _ in range(TRIES):
        number = _wrong(draft, options)
        if not number:
            break
        index = cut(draft.sizes[number - 1], draft.blocks[number - 1], sheets.area(options.size), done)
        if index is None:
            break
        done.add(index)
        draft = _draft(wired, lines, marks, options, done, True)
    return draft


def _wrong(draft: Draft, options: Options) -> int:
    """Number, from 1, of the first piece that does not fit on a sheet; 0 where all do."""
    for number, block in enumerate(draft.blocks):
        if not alone(block, options.size, [], [i for i in block.flat() if isinstance(i, Shape)]):
            return number + 1
    return 0


def _draft(wired: Wiring, lines: list[Chain], marks, options: Options, cuts: set[int], below: bool) -> Draft:
    forest = tree(wired, lines, sorted(cuts))
    system = wired.system
    cables = {k: v for c in system.circuits for k, v in cable(wired, c.name).items() if v}
    faults = {name: mark.severity for mark in reversed(marks) for name in mark.conductors if not mark.accepted}
    sorted_ = returns(forest)
    names = designations(system)
    high = sheets.area(options.size).height if options.size else 277.0
    blocked: frozenset[int] = frozenset()
    for _ in range(3):
        plan = Plan(
            forest, sorted_, options, names, cables, faults, blocked=blocked, below=below,
            most=max(6, int((high - 95) / ROW)),
        )
        roots = [*(r for r in forest.roots if r in wired.vertices), *sorted_.roots]
        pieces, sizes = [], []
        for root in roots:
            plan.sizes = {}
            pieces.append(piece(plan, root, options.engine))
            sizes.append(plan.sizes)
        if not plan.met:
            break
        blocked |= frozenset(plan.met)
    return Draft(plan, roots, pieces, sizes)


def _scene(system: System, draft: Draft, marks: tuple[Mark, ...], options: Options) -> Scene:
    blocks = draft.blocks
    shapes = [[i for i in block.flat() if isinstance(i, Shape)] for block in blocks]
    filled, over = pages(blocks, options.size, lambda number: [], shapes)
    made = tuple(_sheet(system, page, blocks, number + 1, len(filled), options) for number, page in enumerate(filled))
    engine = next((p.engine for p in draft.pieces if p.engine != "own packing"), "own packing")
    return Scene(system.title, _description(system), _referenced(made, options), engine)


def _sheet(system: System, page: Page, blocks: list[Block], number: int, count: int, options: Options) -> Sheet:
    items = [item for n, x, y in page.places for item in blocks[n].flat(x, y)]
    shapes = tuple(i for i in items if isinstance(i, Shape))
    lines = tuple(i for i in items if isinstance(i, Line))
    symbols = legend.used(shapes) if page.legend else ()
    weights = legend.weights(lines) if page.legend else ()
    if options.size:
        made = sheets.furnish(
            options.size, number, count, {"title": system.title, **options.block}, page.rows, symbols, weights=weights,
        )
    else:
        right, bottom = max(r for _, _, r, _ in page.taken), max(b for _, _, _, b in page.taken)
        box = sheets.Box(sheets.GAP, sheets.GAP, right - sheets.GAP, bottom - sheets.GAP)
        made = sheets.furnish_frameless(box, page.rows, symbols, weights=weights)
    return Sheet(
        number, count, options.size, made.width, made.height, system.title, shapes,
        tuple(i for i in items if isinstance(i, Bar)), lines, tuple(i for i in items if isinstance(i, Stub)),
        (*(i for i in items if isinstance(i, Text)), *made.texts), (), made.rows, made.rules, made.legend, made.keys,
    )


def _referenced(made: tuple[Sheet, ...], options: Options) -> tuple[Sheet, ...]:
    """References say where their partner is: /C3, or /2.C3 where there are several sheets."""
    at = {stub.id: (sheet.number, sheets.zone(options.size, stub.at)) for sheet in made for stub in sheet.stubs}

    def said(stub: Stub) -> Stub:
        if stub.form not in ("to", "from"):
            return stub
        number, zone = at.get(stub.partner, (0, ""))
        place = f" /{number}.{zone}" if len(made) > 1 else f" /{zone}"
        return replace(stub, text=stub.text.replace(PLACE, place if zone else ""))

    return tuple(replace(sheet, stubs=tuple(said(stub) for stub in sheet.stubs)) for sheet in made)


def _description(system: System) -> str:
    counts: dict[str, int] = {}
    for node in system.nodes.values():
        counts[node.kind.name] = counts.get(node.kind.name, 0) + 1
    parts = ", ".join(f"{count} {name}" for name, count in counts.items())
    return f"One-line diagram of {len(system.nodes)} nodes in {len(system.circuits)} circuits: {parts}."
