"""What a YAML reader's error means to who wrote the text."""

from __future__ import annotations

from typing import Protocol


class Marked(Protocol):
    """An error of PyYAML: what it was doing, and what hindered it."""

    context: str | None
    problem: str | None


# (in what is said, mark "opened" where it began or "found" where it went wrong, message, help); the first that fits
_MEANING = (
    ("quoted scalar", "opened", "this quote is not closed",
     "A quote that belongs to the text is written twice inside single quotes."),
    ("found unexpected ':'", "found", "a space belongs behind this `:`, and a value", "An entry is `name: value`."),
    ("mapping values are not allowed", "found", "a second `:` in one entry",
     "A text with `: ` in it needs quotes; or a line is indented too far."),
    ("cannot start any token", "found", "a text can't begin with this sign", "Put quotes round the text."),
    ("could not find expected ':'", "opened", "this is no `name: value`",
     "A `:` is missing, or the line belongs further to the right."),
    ("block sequence entries are not allowed", "found", "a list can't begin here",
     "Begin it on a line of its own, indented."),
    ("did not find expected '-' indicator", "found", "this is no further entry of the list above",
     "Each entry begins with `- ` in the same column."),
    ("did not find expected key", "found", "the indentation of this line fits none of those above",
     "Entries that belong together begin in one column."),
    ("did not find expected node content", "found", "an entry is missing here, or there is a comma too many", ""),
)
_FLOW = (("flow mapping", "{", "}"), ("flow sequence", "[", "]"))


def explain(error: Marked, later: bool) -> tuple[str, str, str]:
    """Where to mark ("opened" or "found"), message and help. `later`: it went wrong in a line after it began."""
    said = " ".join(part for part in (error.context, error.problem) if part)
    for sign, mark, message, advice in _MEANING:
        if sign in said:
            return mark, message, advice
    for name, start, end in _FLOW:
        if name in said and later:
            return "opened", f"this `{start}` is not closed", f"A `{end}` is missing, or a comma between two entries."
        if name in said:
            return "found", f"a comma or `{end}` is missing before this", ""
    return "found", f"this is not YAML: {said}", ""
