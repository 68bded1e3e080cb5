"""A system as a scene: every phase in turn."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout import findings_sheet, gates, legend, sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.marking import explained, legends, numbered, placed, standing_tags, with_rows
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import Wiring, wiring
from diagrammer.layout.p2_chains import chains
from diagrammer.layout.p4_blocks.plan import NUMBERED
from diagrammer.layout.p6_draft import Draft
from diagrammer.layout.p6_fit import fitted
from diagrammer.layout.p6_pages import pages
from diagrammer.layout.p6_sheets import bare_sheet, furnished, listed, referenced, taken_boxes
from diagrammer.layout.p7_numbers import numbered as numbered_line
from diagrammer.layout.p7_routes import drawn
from diagrammer.layout.p8_flags import flagged
from diagrammer.layout.p8_targets import groups
from diagrammer.layout.scene import Line, Scene, Sheet, Stub
from diagrammer.netlist.model import System


def draw(system: System, marks: tuple[Mark, ...] = (), options: Options = Options()) -> Scene:
    """The one-line diagram of a system on as many sheets as it needs, its gates computed."""
    wired = wiring(system)
    lines = chains(wired, wired.links)
    draft = fitted(wired, lines, marks, options)
    if (options.both or options.readings) and options.size and draft.wrong(options.size):
        draft = fitted(wired, lines, marks, replace(options, level=True))
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
    tags = standing_tags(draft.plan)
    every = [*wired.links, *wired.returns]
    return {link.cable: tags.get(link.cable, "") for link in every if link.cable}


def _scene(system: System, draft: Draft, marks: tuple[Mark, ...], options: Options) -> Scene:
    filled = pages(with_rows(draft, marks), options.size)
    bare = [bare_sheet(system, page, n, options) for n, page in enumerate(filled, 1)]
    taken = [taken_boxes(page) for page in filled]
    bare = _returns(draft, marks, options, bare, [page.area for page in filled], taken)
    found, lost = groups(bare, marks, standing_tags(draft.plan), lambda point: sheets.zone(options.size, point))
    listing = placed(numbered(found, lost, options), filled)
    for n, page in enumerate(filled):
        page.rows = [row for home, _, row in listing if home == n]
    poor = [sheet for sheet, page in zip(bare, filled) if not page.legend]
    extra = _extra(options, [row for home, _, row in listing if home < 0], poor, filled)
    count, at = len(filled) + len(extra.sheets), extra.whereabouts(len(filled) + 1)
    made = []
    for n, (sheet, page) in enumerate(zip(bare, filled)):
        others = sorted({at.get(row.number, home + 1) for home, m, row in listing if max(m, 0) == n != home})
        note = findings_sheet.reference(others, bool(page.rows), legends(page, filled, bool(extra.symbols)))
        sheet = furnished(system, page, replace(sheet, count=count), options, note, poor if page.guests else ())
        made.append(flagged(sheet, [g for g in found if g.target.sheet == n], page.area, taken[n]))
    for n in range(len(filled) + 1, count + 1):
        made.append(listed(system, Sheet(n, count, options.size, 0, 0, "Findings"), extra, options))
    engine = next((p.engine for p in draft.pieces if p.engine != "own packing"), "own packing")
    return Scene(system.title, _description(system), referenced(tuple(made), options), engine)


def _extra(options: Options, rows: list, poor: list[Sheet], filled: list) -> findings_sheet.Spread:
    """Findings that no drawing has room for, and with them the legend of sheets without one."""
    if not options.size or not rows:
        return findings_sheet.Spread()
    if explained(filled):
        return findings_sheet.spread(options.size, rows)
    symbols = legend.used([shape for sheet in poor for shape in sheet.shapes])
    weights = legend.weights([line for sheet in poor for line in sheet.lines])
    return findings_sheet.spread(options.size, rows, symbols, weights)


def _returns(draft: Draft, marks, options: Options, made: list[Sheet], areas: list, taken: list) -> list[Sheet]:
    """Returns at fault drawn in full; all of them where that was asked."""
    plan = draft.plan
    for tags in plan.returns.tags.values():
        for form, chain, _ in tags:
            link = next((link for link in chain.links if plan.fault(link)), chain.links[0])
            fault = plan.fault(link)
            if form != "return" or not (fault or options.all_returns):
                continue
            for n, sheet in enumerate(made):
                stub = next((s for s in sheet.stubs if s.id == f"r{chain.index}"), None)
                if stub:
                    made[n] = _route(sheet, stub, link, fault, areas[n], taken[n]) or sheet
    return made


def _route(sheet: Sheet, stub: Stub, link, fault: str, area, taken) -> Sheet | None:
    def line(points, dots) -> Line:
        weight = "fault" if fault else "return"
        return Line(link.circuit, link.cable, points, weight, link.circuit, link.line, fault, dots)

    made = drawn(sheet, stub, line, area, taken)
    number, mark, _ = stub.text.partition(NUMBERED)
    return numbered_line(made, number) if made and mark else made


def _description(system: System) -> str:
    counts: dict[str, int] = {}
    for node in system.nodes.values():
        counts[node.kind.name] = counts.get(node.kind.name, 0) + 1
    parts = ", ".join(f"{count} {name}" for name, count in counts.items())
    return f"One-line diagram of {len(system.nodes)} nodes in {len(system.circuits)} circuits: {parts}."
