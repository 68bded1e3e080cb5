"""How wide a text is, without a font: the sum of advances, an upper bound of what any renderer draws."""

from __future__ import annotations

import csv
import unicodedata
from functools import cache, lru_cache
from importlib import resources

CAPITALS = 0.688  # height of capitals, share of the font size: Liberation Sans 1409/2048; Arial's, 0.716, are higher
SMALLEST = 2.62  # [mm] font size whose capitals are 1.8 mm, the smallest of ISO 3098, in any font of the list
EM = 2048  # units of the table
EMOJI = 1.25  # [em] colour fonts draw them a little wider than the em; from memory
ELLIPSIS = "…"


@cache
def advances() -> dict[str, tuple[int, int]]:
    """Character to its advance, regular and bold [1/2048 em]."""
    text = resources.files(__package__).joinpath("advances.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {chr(int(row["code"], 16)): (int(row["regular"]), int(row["bold"])) for row in rows}


@cache
def advance(character: str, bold: bool = False) -> float:
    """[em] Combining and control characters take no room; those not in the table are taken as wide."""
    known = advances().get(character)
    if known:
        return known[bold] / EM
    category = unicodedata.category(character)
    if category in ("Mn", "Me", "Cf", "Cc"):
        return 0.0
    return EMOJI if category in ("So", "Sk") else 1.0


def width(text: str, size: float, bold: bool = False) -> float:
    """[mm] of `text` in one line at a font size [mm], kerning off."""
    return size * _ems(text, bold)


@lru_cache(maxsize=4096)
def _ems(text: str, bold: bool) -> float:
    return sum(advance(character, bold) for character in text)


def wrap(text: str, size: float, most: float, lines: int, bold: bool = False) -> tuple[str, ...]:
    """`text` in at most `lines` lines, none wider than `most` [mm] (if one character is not).

    Broken at spaces; a word wider than a line is broken where it must. What does not fit is cut,
    and an ellipsis says so. An empty text has no lines.
    """
    done: list[str] = []
    line = ""
    for word in text.split():
        joined = f"{line} {word}" if line else word
        if width(joined, size, bold) <= most:
            line = joined
            continue
        if line:
            done.append(line)
        *full, line = _pieces(word, size, most, bold)
        done += full
    done += [line] if line else []
    if len(done) > lines:
        done = [*done[:lines - 1], shorten(" ".join(done[lines - 1:]), size, most, bold)]
    return tuple(done)


def shorten(text: str, size: float, most: float, bold: bool = False) -> str:
    """`text`, or as much of its beginning as fits in `most` [mm] with an ellipsis."""
    if width(text, size, bold) <= most:
        return text
    while text and width(text + ELLIPSIS, size, bold) > most:
        text = text[:-1].rstrip()
    return text + ELLIPSIS


def _pieces(word: str, size: float, most: float, bold: bool) -> list[str]:
    """A word cut into pieces that fit, none empty."""
    pieces = [""]
    for character in word:
        if pieces[-1] and width(pieces[-1] + character, size, bold) > most:
            pieces.append("")
        pieces[-1] += character
    return pieces
