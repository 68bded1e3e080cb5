"""Sixth phase, the search: as few sheets as a short search finds.

Before: chains. After: a draft whose every piece fits on a sheet, where one was found.
"""

from __future__ import annotations

from diagrammer.layout import sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.marking import with_rows
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import Wiring
from diagrammer.layout.p2_chains import Chain, chains
from diagrammer.layout.p6_draft import Draft, drafted, HOWS, Task, words
from diagrammer.layout.p6_pages import cuts, pages, STUB

TRIES = 14  # rounds of standing sub blocks apart


def fitted(wired: Wiring, lines: list[Chain], marks: tuple[Mark, ...], options: Options) -> Draft:
    """Pieces that each fit on a sheet, on as few sheets as a short search finds: sub panels below or
    beside their panels, loads of the bar as columns or rows, one sub block apart; else several."""
    task = Task(wired, lines, chains(wired, wired.returns), words(wired, marks, options), options)
    if not options.size:
        return drafted(task, ((), *HOWS[0]), options.engine)
    tries = [drafted(task, ((), *HOWS[0]), "own")]
    scores = [_score(tries[0], marks, options)]
    for how in _hows(tries[0], options, scores):  # lazily: most drawings need the first only
        if min(scores) <= (0, 1):
            break
        tries.append(drafted(task, how, "own"))
        scores.append(_score(tries[-1], marks, options))
    score = min(scores)
    best = tries[scores.index(score)]
    if score[0]:
        best = _apart(task, marks, best)
        score = _score(best, marks, options)
    if options.engine == "own":
        return best
    placed = drafted(task, best.how, options.engine)
    return placed if _score(placed, marks, options) <= score else best


SINGLES = 3  # sub blocks tried apart, each alone


def _hows(draft: Draft, options: Options, scores: list[tuple[int, int]]):
    """Other ways that would change anything; once one fits, none that is still too wide. scores: those so far."""
    if draft.plan.nested:
        yield (), *HOWS[1]
    if draft.plan.ungrouped:
        yield (), *HOWS[2]
    area, sizes, whole = sheets.area(options.size), draft.sizes[0], draft.cut_out[0]
    for some in cuts(sizes, whole, area, set())[:SINGLES]:
        if min(scores)[0] or whole.wide - sum(sizes[n][0] - STUB for n in some) <= area.width:
            yield some, *HOWS[0]


def _score(draft: Draft, marks: tuple[Mark, ...], options: Options) -> tuple[int, int]:
    """Pieces that fit on no sheet, then sheets, one more where the findings do not go beside."""
    made = pages(with_rows(draft, marks), options.size)
    return draft.wrong(options.size), len(made) + (not all(page.table for page in made))


def _apart(task: Task, marks: tuple[Mark, ...], draft: Draft) -> Draft:
    """Stand sub blocks apart, one after the other, each the best of a few by the sheets it takes."""
    options = task.options
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
        drafts = [drafted(task, how, "own") for how in ways]
        good = [made for made in drafts if not made.wrong(options.size)]
        draft = min(good, key=lambda made: _score(made, marks, options)) if good else drafts[0]
    return draft


def _later(how: tuple) -> list[tuple]:
    """What is left to try when no sub block is: groups of few loads, then a divided bar."""
    return [HOWS[2]] if how not in HOWS[2:] else [HOWS[3]] if how == HOWS[2] else []
