"""Which findings stand on which piece and sheet, and the rows of the table that say them."""

from __future__ import annotations

from dataclasses import replace

from diagrammer.layout import sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import SIGNALS
from diagrammer.layout.p4_blocks.plan import Plan
from diagrammer.layout.p6_draft import Draft
from diagrammer.layout.p6_pages import Page, Piece
from diagrammer.layout.p8_targets import middle, target
from diagrammer.layout.scene import Bar, Line, Row, Shape, Sheet, Stub


def numbered(found: list, lost: list[Mark], options: Options) -> list:
    """Rows of all findings with the index of their target's sheet, -1 where nothing could be flagged."""
    made = [
        (group.target.sheet, row_of(mark, number, sheets.zone(options.size, middle(group.target.box))))
        for group in found for mark, number in zip(group.marks, group.numbers)
    ]
    return made + [(-1, row_of(mark, len(made) + n, "")) for n, mark in enumerate(lost, 1)]


def placed(rows: list, pages: list[Page]) -> list[tuple[int, int, Row]]:
    """Each row with the index of the page whose table holds it, -1 where none has room, and of that of its mark."""
    host = next((n for n, page in enumerate(pages) if page.hosts), -1)
    made = []
    for number, row in rows:
        home = max(number, 0) if pages[max(number, 0)].table else host
        far = number >= 0 and (home < 0 or pages[home].hosts)
        made.append((home, number, replace(row, zone=f"{number + 1}.{row.zone}") if far else row))
    return made


def legends(page: Page, pages: list[Page], extra: bool) -> list[int]:
    """Numbers of the sheets that explain the symbols of a page without a legend. extra: that of findings does."""
    if page.legend or extra:
        return [] if page.legend else [len(pages) + 1]
    return [
        n for n, one in enumerate(pages, 1) if one.legend and (one.symbols | one.guests).keys() & page.symbols.keys()
    ]


def explained(pages: list[Page]) -> bool:
    """Whether every symbol stands in a legend, if not on its own sheet."""
    known = {says for page in pages if page.legend for says in page.symbols | page.guests}
    return all(page.legend or page.symbols.keys() <= known for page in pages)


def with_rows(draft: Draft, marks: tuple[Mark, ...]) -> list[Piece]:
    """Pieces with the rows of the marks that point at them, for the room they will take."""
    made = draft.cut_out
    if not marks:
        return made
    stubs = standing_tags(draft.plan)
    shells = [_shell(piece) for piece in made]
    for piece in made:
        piece.rows = []
    for mark in marks:
        there = target(shells, mark, stubs)
        made[there.sheet if there else 0].rows.append(row_of(mark, 88, "W8"))
    return made


def _shell(piece: Piece) -> Sheet:
    """A piece as a sheet without places."""
    items = piece.items
    return Sheet(
        0, 0, "", 0, 0, "",
        tuple(i for i in items if isinstance(i, Shape)), tuple(i for i in items if isinstance(i, Bar)),
        tuple(i for i in items if isinstance(i, Line)), tuple(i for i in items if isinstance(i, Stub)),
    )


def row_of(mark: Mark, number: int, zone: str):
    return sheets.row(number, mark.severity, zone, mark.rule, mark.text, mark.accepted)


def standing_tags(plan: Plan) -> dict[str, str]:
    """Which tag stands for a cable of a return or bond."""
    returns = ((f"r{chain.index}", chain) for tags in plan.returns.tags.values() for _, chain, _ in tags)
    both = (chain for chain in plan.tree.chains if chain.a[1] in SIGNALS and chain.b[1] in SIGNALS)
    leads = ((f"x{chain.index}a", chain) for chain in both)
    return {link.cable: name for name, chain in (*returns, *leads) for link in chain.links if link.cable}
