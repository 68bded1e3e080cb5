"""Sixth phase, the search: as few sheets as a short search finds.

Before: chains. After: a draft whose every piece fits on a sheet, where one was found.
"""

from __future__ import annotations

from diagrammer.layout import sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.marking import with_rows
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import Wiring
from diagrammer.layout.p2_chains import Chain
from diagrammer.layout.p6_draft import Draft, drafted, HOWS
from diagrammer.layout.p6_pages import cuts, pages

TRIES = 14  # rounds of standing sub blocks apart


def fitted(wired: Wiring, lines: list[Chain], marks: tuple[Mark, ...], options: Options) -> Draft:
    """Pieces that each fit on a sheet, on as few sheets as a short search finds: sub panels below or
    beside their panels, loads of the bar as columns or rows, one sub block apart; else several."""
    if not options.size:
        return drafted(wired, lines, marks, options, ((), *HOWS[0]), options.engine)
    tries = [drafted(wired, lines, marks, options, ((), *HOWS[0]), "own")]
    scores = [_score(tries[0], marks, options)]
    for how in _hows(tries[0], options):  # lazily: most drawings need the first only
        if min(scores) <= (0, 1):
            break
        tries.append(drafted(wired, lines, marks, options, how, "own"))
        scores.append(_score(tries[-1], marks, options))
    best = tries[scores.index(min(scores))]
    if min(scores)[0]:
        best = _apart(wired, lines, marks, options, best)
    if options.engine == "own":
        return best
    placed = drafted(wired, lines, marks, options, best.how, options.engine)
    return placed if _score(placed, marks, options) <= _score(best, marks, options) else best


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
    made = pages(with_rows(draft, marks), options.size)
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
        drafts = [drafted(wired, lines, marks, options, how, "own") for how in ways]
        good = [made for made in drafts if not made.wrong(options.size)]
        draft = min(good, key=lambda made: _score(made, marks, options)) if good else drafts[0]
    return draft


def _later(how: tuple) -> list[tuple]:
    """What is left to try when no sub block is: groups of few loads, then a divided bar."""
    return [HOWS[2]] if how not in HOWS[2:] else [HOWS[3]] if how == HOWS[2] else []
