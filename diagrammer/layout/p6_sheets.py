"""Sixth phase, the sheets: pages as sheets of the scene, with their furniture and references."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from diagrammer.layout import findings_sheet, legend, sheet as sheets, title_block
from diagrammer.layout.findings_sheet import Spread
from diagrammer.layout.options import Options
from diagrammer.layout.p4_blocks.block import boxes_of, move
from diagrammer.layout.p4_blocks.plan import PLACE
from diagrammer.layout.p6_pages import CELL, Page
from diagrammer.layout.scene import Bar, Line, Shape, Sheet, Stub, Text
from diagrammer.netlist.model import System


def taken_boxes(page: Page) -> list:
    area, furniture = page.area, page.furniture(page.rows, page.symbols | page.guests, page.weights)
    return [
        (area.x + x * CELL, area.y + y * CELL, area.x + (x + n) * CELL, area.y + (y + 1) * CELL)
        for y, bits in enumerate(furniture) for x, n in _runs(bits)
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


def bare_sheet(system: System, page: Page, number: int, options: Options) -> Sheet:
    items = [item for piece, dx, dy in page.places for item in piece.block.flat(dx, dy)]
    return Sheet(
        number, 0, options.size, 0, 0, system.title, tuple(i for i in items if isinstance(i, Shape)),
        tuple(i for i in items if isinstance(i, Bar)), tuple(i for i in items if isinstance(i, Line)),
        tuple(i for i in items if isinstance(i, Stub)), tuple(i for i in items if isinstance(i, Text)),
    )


def furnished(
    system: System, page: Page, sheet: Sheet, options: Options, note: str = "", guests: Sequence[Sheet] = (),
) -> Sheet:
    """The sheet with frame, title block, table and legend. note: what of it stands on which other sheets; guests:
    sheets whose lines are explained here."""
    own = {symbol.says: symbol for symbol in legend.used(sheet.shapes)}
    symbols = tuple((own | page.guests).values()) if page.legend else ()
    weights = legend.weights([line for one in (sheet, *guests) for line in one.lines]) if page.legend else ()
    if options.size:
        block = {"title": system.title, **options.block}
        sheet = _over_title_block(sheet, page.rows) if options.told else sheet
        made = sheets.furnish(
            options.size, sheet.number, sheet.count, block, page.rows, symbols, weights=weights, note=note,
            share=page.legend, taken=_near_marks(sheet, page.area),
        )
    else:
        right = max(dx + piece.block.right for piece, dx, _ in page.places)
        bottom = max(dy + piece.block.bottom for piece, _, dy in page.places)
        box = sheets.Box(sheets.GAP, sheets.GAP, right - sheets.GAP, bottom - sheets.GAP)
        made = sheets.furnish_frameless(box, page.rows, symbols, weights=weights)
    return _with(sheet, made)


def _over_title_block(sheet: Sheet, rows: Sequence) -> Sheet:
    """What is told beside the drawing, moved over the title block with what stands on it, where that is free."""
    told = [text for text in sheet.texts if text.role == "note"]
    if not told:
        return sheet
    frame, boxes = sheets.paper(sheet.size).frame, [boxes_of(text)[0] for text in told]
    left, top, right, low = (edge(values) for edge, values in zip((min, min, max, max), zip(*boxes)))
    dx = frame.x + frame.width - title_block.WIDTH + 1.5 - left
    dy = frame.y + frame.height - sheets.stack_height(rows) - 2.0 - low
    others = [text for text in sheet.texts if text.role != "note"]
    items = (*sheet.shapes, *sheet.bars, *sheet.stubs, *sheet.lines, *others)
    everything = (box for item in items for box in boxes_of(item))
    near = left + dx - 4, top + dy - 4, right + dx + 4, low + dy
    if any(near[0] < box[2] and box[0] < near[2] and near[1] < box[3] and box[1] < near[3] for box in everything):
        return sheet
    return replace(sheet, texts=(*others, *(move(text, dx, dy) for text in told)))


CLOSE = 1.5  # [mm] that a centring mark keeps from the drawing


def _near_marks(sheet: Sheet, area: sheets.Box) -> list[sheets.Box]:
    """Room of what stands where centring marks may reach into the drawing."""
    boxes = (box for item in (*sheet.shapes, *sheet.stubs, *sheet.texts, *sheet.lines) for box in boxes_of(item))
    x, y, right, bottom = area.x + CLOSE, area.y + CLOSE, area.x + area.width - CLOSE, area.y + area.height - CLOSE
    return [
        sheets.Box(a - CLOSE, b - CLOSE, c - a + 2 * CLOSE, d - b + 2 * CLOSE)
        for a, b, c, d in boxes if a < x or b < y or c > right or d > bottom
    ]


def listed(system: System, sheet: Sheet, every: Spread, options: Options) -> Sheet:
    """A sheet of findings alone, one of `every`."""
    block = {"title": system.title, **options.block}
    return _with(sheet, findings_sheet.findings_sheet(options.size, sheet.number, sheet.count, block, every))


def _with(sheet: Sheet, made: sheets.Furniture) -> Sheet:
    return replace(
        sheet, width=made.width, height=made.height, texts=(*sheet.texts, *made.texts), rows=made.rows,
        rules=made.rules, legend=made.legend, keys=made.keys,
    )


def referenced(made: tuple[Sheet, ...], options: Options) -> tuple[Sheet, ...]:
    """References say where their partner is: /C3, or /2.C3 where there are several sheets."""
    at = {stub.id: (sheet.number, sheets.zone(options.size, stub.at)) for sheet in made for stub in sheet.stubs}

    def said(stub: Stub) -> Stub:
        if stub.form not in ("to", "from"):
            return stub
        number, zone = at.get(stub.partner, (0, ""))
        place = f" /{number}.{zone}" if len(made) > 1 else f" /{zone}"
        return replace(stub, text=stub.text.replace(PLACE, place if zone else ""))

    return tuple(replace(sheet, stubs=tuple(said(stub) for stub in sheet.stubs)) for sheet in made)
