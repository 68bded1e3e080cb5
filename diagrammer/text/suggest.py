"""The nearest valid name, only when it is close: a wrong guess is worse than none."""

from __future__ import annotations

import re
from collections.abc import Iterable

LONGEST = 60  # characters of a word that is compared or shown whole
MOST = 300  # names that are compared closely


def nearest(word: str, names: Iterable[str], most: int = 1) -> tuple[str, ...]:
    """Names that `word` may have been meant for; one that differs in its number only is another thing."""
    if not word or len(word) > LONGEST:
        return ()
    folded = word.casefold()
    alike = [name for name in names if name and _may_be(folded, name.casefold())][:MOST]
    twins = [name for name in alike if name.casefold() == folded]
    if twins or not alike:
        return tuple(twins[:most])
    import difflib  # here: half the time that reading a sound file takes to start

    return tuple(difflib.get_close_matches(word, alike, n=most, cutoff=0.7))


def _may_be(word: str, name: str) -> bool:
    if abs(len(word) - len(name)) > max(2, len(word) // 3):
        return False
    if word == name:
        return True
    return (word[0] == name[0] or word[-1] == name[-1]) and _bare(word) != _bare(name)


def _bare(word: str) -> str:
    """Without its numbers: lamp-1 and lamp-12 are no misspellings of each other."""
    return re.sub("[-_]?[0-9]+", "", word)


def did_you_mean(word: str, names: Iterable[str]) -> str:
    """A sentence, or nothing."""
    found = nearest(word, names)
    return f"Did you mean `{found[0]}`?" if found else ""


def shortened(text: str) -> str:
    """A text as a message shows it: one line, of some length at most."""
    text = " ".join(text.split())
    return text if len(text) <= LONGEST else f"{text[:LONGEST]} ..."


def listed(names: Iterable[str], word: str = "and") -> str:
    """a, b and c."""
    names = [str(name) for name in names]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {word} {names[-1]}" if names else ""


def a(name: str) -> str:
    """A name with its article, by the sound of it: an anl, an rcd."""
    return f"an {name}" if name[:1] in "aeiou" or name[:2] == "rc" else f"a {name}"
