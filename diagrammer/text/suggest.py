"""The nearest valid name, only when it is close: a wrong guess is worse than none."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def nearest(word: str, names: Iterable[str], most: int = 1) -> tuple[str, ...]:
    if len(word) > 60:
        return ()
    names = [name for name in names if name]
    twins = [name for name in names if name.casefold() == word.casefold()]
    return tuple(twins[:most] or difflib.get_close_matches(word, names, n=most, cutoff=0.7))


def did_you_mean(word: str, names: Iterable[str]) -> str:
    """A sentence, or nothing."""
    found = nearest(word, names)
    return f"Did you mean `{found[0]}`?" if found else ""


def listed(names: Iterable[str], word: str = "and") -> str:
    """a, b and c."""
    names = [str(name) for name in names]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {word} {names[-1]}" if names else ""
