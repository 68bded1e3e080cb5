"""Sixth phase, the search: as few sheets as a short search finds.

Before: chains. After: a draft whose every piece fits on a sheet, where one was found.
"""

from __future__ import annotations

from collections.abc import Iterator

from diagrammer.layout import sheet as sheets
from diagrammer.layout.mark import Mark
from diagrammer.layout.marking import explained, with_rows
from diagrammer.layout.options import Options
from diagrammer.layout.p1_wiring import Wiring
from diagrammer.layout.p2_chains import Chain, chains
from diagrammer.layout.p6_cuts import cuts, panels_first
from diagrammer.layout.p6_draft import Draft, drafted, How, HOWS, Task, words
from diagrammer.layout.p6_pages import CELL, pages

ROUNDS = 14  # of standing sub blocks apart
FULL = 0.6  # share of a sheet that pieces with the room round them fill at most
Score = tuple[int, int, int]


def fitted(wired: Wiring, lines: list[Chain], marks: tuple[Mark, ...], options: Options) -> Draft:
    """Pieces that each fit on a sheet, on as few sheets as a short search finds: sub panels below or
    beside their panels, loads of the bar as columns or rows, a few sub blocks apart; else several."""
    task = Task(wired, lines, chains(wired, wired.returns), words(wired, marks, options), options)
    if not options.size:
        return drafted(task, ((), *HOWS[0]), options.engine)
    best = drafted(task, ((), *HOWS[0]), "own")
    score, least = _score(best, marks, options), _least(best, options)
    for how in _hows(best, least):  # lazily: most drawings need the first only
        if score <= (0, least, 0):
            break
        best, score = _better(task, marks, how, best, score)
    if len(best.how[0]) > 1:  # what stood apart last but one may not have had to
        *some, _, last = best.how[0]
        best, score = _better(task, marks, ((*some, last), *best.how[1:]), best, (*score[:2], score[2] + 1))
    if score[0]:
        best = _apart(task, marks, best)
        score = _score(best, marks, options)
    if options.engine == "own":
        return best
    placed = drafted(task, best.how, options.engine)
    return placed if _score(placed, marks, options) <= score else best


def _better(task: Task, marks: tuple[Mark, ...], how: How, best: Draft, score: Score) -> tuple[Draft, Score]:
    """Another try, where it is better than the best one before."""
    other = drafted(task, how, "own")
    new = _score(other, marks, task.options)
    return (other, new) if new < score else (best, score)


def _least(draft: Draft, options: Options) -> int:
    """Sheets that a draft takes however it is cut, as far as its room tells."""
    area = sheets.area(options.size)
    room = sum(piece.cells for piece in draft.cut_out) * CELL * CELL
    return max(1, -int(-room // (FULL * area.width * area.height)))


APART = (2, 4)  # how many sub blocks stand apart for the sake of fewer sheets


def _hows(draft: Draft, least: int) -> Iterator[How]:
    """Other ways that may take fewer sheets: a few sub blocks apart, or sub panels beside their panels."""
    first = panels_first(draft.sizes[0]) if least == 1 else []  # _apart does as well where more sheets are needed
    for count in dict.fromkeys(min(count, len(first)) for count in APART if first):
        yield tuple(first[:count]), *HOWS[0]
    if draft.plan.nested:
        yield (), *HOWS[1]


def _score(draft: Draft, marks: tuple[Mark, ...], options: Options) -> Score:
    """Pieces that fit on no sheet; sheets, one more for findings that go nowhere; symbols without a legend."""
    made = pages(with_rows(draft, marks), options.size)
    apart = not all(page.table for page in made) and not any(page.hosts for page in made)
    return draft.wrong(options.size), len(made) + apart, not explained(made)


def _apart(task: Task, marks: tuple[Mark, ...], draft: Draft) -> Draft:
    """Stand sub blocks apart, one after the other, each the best of a few by the sheets it takes."""
    options = task.options
    for _ in range(ROUNDS):
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
    """What is left to try when no sub block is: groups of few loads, then a divided bar, then shorter legs."""
    left = HOWS[2:]
    place = left.index(how) + 1 if how in left else 0
    return list(left[place:place + 1])
