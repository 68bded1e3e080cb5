"""A system as a scene: every phase in turn."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from diagrammer.layout import gates, legend, sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import SIGNALS, STORES, Vertex, Wiring, wiring
from diagrammer.layout.p2_chains import Chain, chains
from diagrammer.layout.p3_returns import returns
from diagrammer.layout.p3_tree import tree
from diagrammer.layout.p4_blocks.block import move
from diagrammer.layout.p4_blocks.catch import gather_block
from diagrammer.layout.p4_blocks.plan import PLACE, Plan
from diagrammer.layout.p5_place import Placed, isolated, piece
from diagrammer.layout.p6_pages import CELL, Page, Piece, alone, cuts, pages, tables
from diagrammer.layout.p7_routes import drawn
from diagrammer.layout.p8_flags import flagged, groups, middle, target
from diagrammer.layout.scene import Bar, Line, Scene, Shape, Sheet, Stub, Text
from diagrammer.layout.texts import cable, designations
from diagrammer.netlist.model import System

TRIES = 14  # rounds of standing sub blocks apart
How = tuple[tuple[int, ...], bool, int, bool]  # chains cut, and one of HOWS


@dataclass
class Draft:
    """One try: pieces of a forest with the chains cut so far."""

    plan: Plan
    how: How
    roots: list[Vertex]
    pieces: list[Placed]
    sizes: list[dict]

    def wrong(self, size: str) -> int:
        """Number, from 1, of the first piece that does not fit on a sheet; 0 where all do."""
        return next((n for n, made in enumerate(self.cut_out, 1) if not alone(made, size)), 0)

    @cached_property
    def cut_out(self) -> list[Piece]:
        return [Piece(made.block, made.low) for made in self.pieces]


def draw(system: System, marks: tuple[Mark, ...] = (), options: Options = Options()) -> Scene:
    """The one-line diagram of a system on as many sheets as it needs, its gates computed."""
    wired = wiring(system)
    lines = chains(wired, wired.links)
    draft = fitted(wired, lines, marks, options)
    scene = _scene(system, draft, marks, options)
    remarks = dict.fromkeys(r for p in draft.pieces for r in p.remarks)
    found = (*gates.faults(scene), *gates.undrawn(scene, _cables(draft, wired)))
    if options.all_returns:
        crossed = [f for f in found if f.gate == "crossing"]
        found = tuple(f for f in found if f.gate != "crossing")
        remarks |= {f"{len(crossed)} crossings, as every return is drawn": None} if crossed else {}
    return replace(scene, remarks=(*remarks, *map(str, found)))


def _cables(draft: Draft, wired: Wiring) -> dict[str, str]:
    """Every cable, and the tag that may stand for it ("" where only a line will do)."""
    tags = _stubs(draft.plan)
    every = [*wired.links, *wired.returns]
    return {link.cable: tags.get(link.cable, "") for link in every if link.cable}


def fitted(wired: Wiring, lines: list[Chain], marks: tuple[Mark, ...], options: Options) -> Draft:
    """Pieces that each fit on a sheet, on as few sheets as a short search finds: sub panels below or
    beside their panels, loads of the bar as columns or rows, one sub block apart; else several."""
    if not options.size:
        return _draft(wired, lines, marks, options, ((), *HOWS[0]), options.engine)
    tries = [_draft(wired, lines, marks, options, ((), *HOWS[0]), "own")]
    scores = [_score(tries[0], marks, options)]
    for how in _hows(tries[0], options):  # lazily: most drawings need the first only
        if min(scores) <= (0, 1):
            break
        tries.append(_draft(wired, lines, marks, options, how, "own"))
        scores.append(_score(tries[-1], marks, options))
    best = tries[scores.index(min(scores))]
    if min(scores)[0]:
        best = _apart(wired, lines, marks, options, best)
    if options.engine == "own":
        return best
    placed = _draft(wired, lines, marks, options, best.how, options.engine)
    return placed if _score(placed, marks, options) <= _score(best, marks, options) else best


# sub panels below their panel; loads that make a group; the main bar in parts
HOWS = ((True, 5, False), (False, 5, False), (True, 2, False), (True, 2, True))
SINGLES = 3  # sub blocks tried apart, each alone


def _hows(draft: Draft, options: Options):
    """Other ways that would change anything."""
    if draft.plan.nested:
        yield (), *HOWS[1]
    if draft.plan.ungrouped:
        yield (), *HOWS[2]
    area = sheets.area(options.size)
    for some in cuts(draft.sizes[0], draft.cut_out[0], area, set())[:SINGLES]:
        yield some, *HOWS[0]


def _score(draft: Draft, marks: tuple[Mark, ...], options: Options) -> tuple[int, int]:
    """Pieces that fit on no sheet, then sheets, one more where the findings do not go beside."""
    made = pages(_with_rows(draft, marks), options.size)
    return draft.wrong(options.size), len(made) + (not all(page.table for page in made))


def _apart(wired: Wiring, lines: list[Chain], marks, options: Options, draft: Draft) -> Draft:
    """Stand sub blocks apart, one after the other, each the best of a few by the sheets it takes."""
    for _ in range(TRIES):
        number = draft.wrong(options.size)
        if not number:
            break
        done, *how = draft.how
        area = sheets.area(options.size)
        tries = cuts(draft.sizes[number - 1], draft.cut_out[number - 1], area, set(done))[:3]
        ways = [((*done, *some), *how) for some in tries] or [(done, *later) for later in _later(tuple(how))]
        if not ways:
            break
        drafts = [_draft(wired, lines, marks, options, how, "own") for how in ways]
        good = [made for made in drafts if not made.wrong(options.size)]
        draft = min(good, key=lambda made: _score(made, marks, options)) if good else drafts[0]
    return draft


def _later(how: tuple) -> list[tuple]:
    """What is left to try when no sub block is: groups of few loads, then a divided bar."""
    return [HOWS[2]] if how not in HOWS[2:] else [HOWS[3]] if how == HOWS[2] else []


def _draft(
    wired: Wiring, lines: list[Chain], marks, options: Options, how: How, engine: str,
) -> Draft:
    apart, below, many, divided = how
    forest = tree(wired, lines, apart)
    system = wired.system
    cables = {k: v for c in system.circuits for k, v in cable(wired, c.name).items() if v}
    faults = {name: mark.severity for mark in reversed(marks) for name in mark.conductors if not mark.accepted}
    sorted_ = returns(forest)
    names = designations(system)
    high = sheets.area(options.size).height if options.size else 277.0
    blocked: frozenset[int] = frozenset()
    for _ in range(3):
        plan = Plan(
            forest, sorted_, options, names, cables, faults, blocked=blocked, below=below, many=many,
            tall=max(60.0, high - (55 if divided else 95)), wide=sheets.area(options.size).width if divided else 0.0,
        )
        roots = [*(r for r in forest.roots if r in wired.vertices), *sorted_.roots]
        pieces, sizes = [], []
        for root in roots:
            plan.sizes = {}
            made = piece(plan, root, engine)
            for placed in made:
                placed.low = root in sorted_.roots
            pieces += made
            sizes += [plan.sizes] * len(made)
        for key in sorted_.gathers:
            if key not in plan.gathered and plan.tree.kind(key[0]) not in STORES:
                pieces.append(Placed(gather_block(plan, key[0], [0.0])))
                sizes.append({})
        for vertex in _left(wired, pieces):
            pieces.append(Placed(isolated(plan, vertex), low=True))
            sizes.append({})
        if not plan.met:
            break
        blocked |= frozenset(plan.met)
    return Draft(plan, how, roots, pieces, sizes)


def _left(wired: Wiring, pieces: list[Placed]) -> list[Vertex]:
    """Nodes that no circuit of power reaches: those with a control lead only, or nothing at all."""
    items = (item for placed in pieces for item in placed.block.flat())
    drawn = {item.node for item in items if isinstance(item, (Shape, Bar))}
    return [(name, "") for name in wired.system.nodes if name not in drawn]


def _scene(system: System, draft: Draft, marks: tuple[Mark, ...], options: Options) -> Scene:
    filled = pages(_with_rows(draft, marks), options.size)
    bare = [_sheet(system, page, n, options) for n, page in enumerate(filled, 1)]
    taken = [_taken(page) for page in filled]
    bare = _returns(draft, marks, options, bare, [page.area for page in filled], taken)
    found, lost = groups(bare, marks, _stubs(draft.plan), lambda point: sheets.zone(options.size, point))
    rows = _rows(found, lost, options)
    for n, page in enumerate(filled):
        page.rows = [row for n_, row in rows if n_ == n] if page.table else []
    apart = [replace(row, zone=f"{n + 1}.{row.zone}" if n >= 0 else "") for n, row in rows if n < 0 or not filled[n].table]
    extra = tables(options.size, apart) if options.size else []
    count = len(filled) + len(extra)
    made = []
    for n, (sheet, page) in enumerate(zip(bare, filled)):
        sheet = _furnished(system, page, replace(sheet, count=count), options)
        made.append(flagged(sheet, [g for g in found if g.target.sheet == n], page.area, taken[n]))
    for n, rows_ in enumerate(extra, len(filled) + 1):
        page = Page(options.size, rows=rows_)
        made.append(_furnished(system, page, Sheet(n, count, options.size, 0, 0, system.title), options))
    engine = next((p.engine for p in draft.pieces if p.engine != "own packing"), "own packing")
    return Scene(system.title, _description(system), _referenced(tuple(made), options), engine)


def _rows(found: list, lost: list[Mark], options: Options) -> list:
    """Rows of all findings with the index of their target's sheet, -1 where nothing could be flagged."""
    made = [
        (group.target.sheet, _row(mark, number, sheets.zone(options.size, middle(group.target.box))))
        for group in found for mark, number in zip(group.marks, group.numbers)
    ]
    return made + [(-1, _row(mark, len(made) + n, "")) for n, mark in enumerate(lost, 1)]


def _with_rows(draft: Draft, marks: tuple[Mark, ...]) -> list[Piece]:
    """Pieces with the rows of the marks that point at them, for the room they will take."""
    made = draft.cut_out
    if not marks:
        return made
    stubs = _stubs(draft.plan)
    shells = [_shell(piece) for piece in made]
    for piece in made:
        piece.rows = []
    for mark in marks:
        there = target(shells, mark, stubs)
        made[there.sheet if there else 0].rows.append(_row(mark, 88, "W8"))
    return made


def _shell(piece: Piece) -> Sheet:
    items = piece.items
    return Sheet(
        0, 0, "", 0, 0, "", tuple(i for i in items if isinstance(i, Shape)), tuple(i for i in items if isinstance(i, Bar)),
        tuple(i for i in items if isinstance(i, Line)), tuple(i for i in items if isinstance(i, Stub)),
    )


def _row(mark: Mark, number: int, zone: str):
    return sheets.row(number, mark.severity, zone, mark.rule, mark.text, mark.accepted)


def _stubs(plan: Plan) -> dict[str, str]:
    """Which tag stands for a cable of a return or bond."""
    returns = ((f"r{chain.index}", chain) for tags in plan.returns.tags.values() for _, chain, _ in tags)
    leads = ((f"x{chain.index}a", chain) for chain in plan.tree.chains if chain.a[1] in SIGNALS and chain.b[1] in SIGNALS)
    return {link.cable: name for name, chain in (*returns, *leads) for link in chain.links if link.cable}


def _taken(page: Page) -> list:
    return [
        (page.area.x + x * CELL, page.area.y + y * CELL, page.area.x + (x + n) * CELL, page.area.y + (y + 1) * CELL)
        for y, bits in enumerate(page.furniture(page.rows, page.shapes)) for x, n in _runs(bits)
    ]


def _runs(bits: int) -> list[tuple[int, int]]:
    """Where the set bits of a row lie: first, count."""
    made, at = [], 0
    while bits:
        low = (bits & -bits).bit_length() - 1
        bits >>= low
        count = (~bits & bits + 1).bit_length() - 1
        made.append((at + low, count))
        bits >>= count
        at += low + count
    return made


def _returns(draft: Draft, marks, options: Options, made: list[Sheet], areas: list, taken: list) -> list[Sheet]:
    """Returns at fault drawn in full; all of them where that was asked."""
    plan = draft.plan
    for tags in plan.returns.tags.values():
        for form, chain, _ in tags:
            link = chain.links[0]
            fault = next((plan.faults[c.cable] for c in chain.links if c.cable in plan.faults), "")
            if form != "return" or not (fault or options.all_returns):
                continue
            for n, sheet in enumerate(made):
                stub = next((s for s in sheet.stubs if s.id == f"r{chain.index}"), None)
                if stub:
                    made[n] = _route(sheet, stub, link, fault, areas[n], taken[n]) or sheet
    return made


def _route(sheet: Sheet, stub: Stub, link, fault: str, area, taken) -> Sheet | None:
    def line(points, dots) -> Line:
        return Line(link.circuit, link.cable, points, "fault" if fault else "return", link.circuit, link.line, fault, dots)

    return drawn(sheet, stub, line, area, taken)


def _sheet(system: System, page: Page, number: int, options: Options) -> Sheet:
    items = [item for piece, dx, dy in page.places for i in piece.items for item in [move(i, dx, dy)]]
    return Sheet(
        number, 0, options.size, 0, 0, system.title, tuple(i for i in items if isinstance(i, Shape)),
        tuple(i for i in items if isinstance(i, Bar)), tuple(i for i in items if isinstance(i, Line)),
        tuple(i for i in items if isinstance(i, Stub)), tuple(i for i in items if isinstance(i, Text)),
    )


def _furnished(system: System, page: Page, sheet: Sheet, options: Options) -> Sheet:
    """The sheet with frame, title block, table and legend."""
    symbols = legend.used(sheet.shapes) if page.legend else ()
    weights = legend.weights(sheet.lines) if page.legend else ()
    if options.size:
        block = {"title": system.title, **options.block}
        made = sheets.furnish(options.size, sheet.number, sheet.count, block, page.rows, symbols, weights=weights)
    else:
        right = max(dx + piece.block.right for piece, dx, _ in page.places)
        bottom = max(dy + piece.block.bottom for piece, _, dy in page.places)
        box = sheets.Box(sheets.GAP, sheets.GAP, right - sheets.GAP, bottom - sheets.GAP)
        made = sheets.furnish_frameless(box, page.rows, symbols, weights=weights)
    return replace(
        sheet, width=made.width, height=made.height, texts=(*sheet.texts, *made.texts), rows=made.rows,
        rules=made.rules, legend=made.legend, keys=made.keys,
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
