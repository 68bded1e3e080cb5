"""Problems and findings as text and as JSON."""

from __future__ import annotations

import json
import unicodedata
from collections.abc import Sequence

from diagrammer.text.finding import SEVERITIES, Finding, Problem
from diagrammer.text.place import Place
from diagrammer.text.source import Source

WIDEST = 160  # characters of a source line that are shown


def problem(one: Problem, source: Source | None) -> str:
    """The place and what is wrong, the line with the place marked, and one sentence of help."""
    parts = [f"{one.at}: error: {one.message}", *_marked(one.at, source)]
    if one.help:
        parts.append(f"    {one.help}")
    return "\n".join(parts)


def finding(one: Finding, source: Source | None, full: bool) -> str:
    """One line; if `full`, with the marked line, what follows from it, the reason, the fix and the source."""
    accepted = f" (accepted: {one.accepted})" if one.accepted else ""
    more = f" (and {len(one.symptoms)} more that follow from it)" if one.symptoms and not full else ""
    line = f"{one.at}: {one.severity} {one.rule}: {one.message}{more}{accepted}"
    if not full:
        return line
    parts = [line, *_marked(one.at, source)]
    if one.path:
        parts.append(f"    path  {' > '.join(one.path)}")
    parts += [f"    with  {text}" for text in one.symptoms]
    parts += [f"    {word}  {text}" for word, text in (("why ", one.reason), ("fix ", one.fix), ("from", one.source)) if text]
    return "\n".join(parts)


def _marked(at: Place, source: Source | None) -> list[str]:
    """The line of the place, and marks below the stretch."""
    if source is None or at.file != source.file or not 1 <= at.line <= len(source.lines):
        return []
    line = source.lines[at.line - 1]
    start = at.column - 1
    end = at.end_column - 1 if at.end_line == at.line else len(line.rstrip())
    cut = max(0, min(start - 40, len(line) - WIDEST)) if len(line) > WIDEST else 0
    shown = "".join(c if c.isprintable() else " " for c in line[cut : cut + WIDEST]).rstrip()
    before = _columns(line[cut:start])
    marks = max(1, min(_columns(line[start:end]), max(1, _columns(shown) - before)))
    return [f"    {shown}", f"    {' ' * before}{'~' * marks}"]


def _columns(text: str) -> int:
    """Columns on a terminal: wide characters take two, combining ones none."""
    return sum(0 if unicodedata.combining(c) else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def count(findings: Sequence[Finding]) -> str:
    """"2 dangers, 1 notice", accepted ones apart."""
    parts = []
    for severity in SEVERITIES:
        number = sum(one.severity == severity and not one.accepted for one in findings)
        if number:
            parts.append(f"{number} {severity}{'s' if number > 1 else ''}")
    accepted = sum(bool(one.accepted) for one in findings)
    if accepted:
        parts.append(f"{accepted} accepted")
    return ", ".join(parts) or "nothing found"


def as_json(file: str, findings: Sequence[Finding], problems: Sequence[Problem] = ()) -> dict:
    """The JSON form of one file's result."""
    result: dict[str, object] = {"file": file, "findings": [_finding(one) for one in findings]}
    if problems:
        result["problems"] = [{"message": one.message, "help": one.help, "at": _place(one.at)} for one in problems]
    return result


def _finding(one: Finding) -> dict:
    found = {
        "rule": one.rule, "severity": one.severity, "message": one.message, "reason": one.reason, "fix": one.fix,
        "source": one.source, "subjects": list(one.subjects), "path": list(one.path), "at": _place(one.at),
    }
    if one.symptoms:
        found["symptoms"] = list(one.symptoms)
    return {**found, "accepted": one.accepted} if one.accepted else found


def _place(at: Place) -> dict:
    return {"line": at.line, "column": at.column, "end_line": at.end_line, "end_column": at.end_column}


def dumps(results: Sequence[dict]) -> str:
    """One result as an object, several as a list."""
    return json.dumps(results[0] if len(results) == 1 else list(results), indent=2, ensure_ascii=False)
