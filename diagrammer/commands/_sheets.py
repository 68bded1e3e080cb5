"""The files of a drawing of several sheets: OUT.svg, OUT-2.svg ... What is not ours is neither replaced nor removed."""

from __future__ import annotations

import html
import re
from pathlib import Path

from diagrammer.pipeline import Unusable

HEAD = 65536  # [bytes] in which a file of ours says its title
SVG = re.compile(r'<svg [^>]*class="diagram"[^>]*>\s*<title id="s\d+-title">([^<]*)</title>')
SHEET = re.compile(r"(.*), sheet (\d+) of \d+", re.DOTALL)


def paths(target: Path, count: int) -> list[Path]:
    """A name a sheet. Raises Unusable where a further one is taken by something that is not a sheet of ours."""
    made = [target, *(target.with_stem(f"{target.stem}-{number}") for number in range(2, count + 1))]
    for number, path in enumerate(made[1:], 2):
        if path.exists() and _sheet(path)[1] != number:
            raise Unusable(f"{path}: is no sheet of an earlier drawing; move it away, or name another output")
    return made


def clear(target: Path, count: int, title: str) -> list[str]:
    """Remove the sheets beyond `count` that an earlier drawing of this title has left; what was done, a line each."""
    done = []
    for number, path in _beyond(target, count):
        words, found = _sheet(path)
        if found != number:
            continue
        if words != title and not words.startswith(f"{title}: "):
            done.append(f"{path}: left as it is, a sheet of another drawing: {words}")
            continue
        try:
            path.unlink()
            done.append(f"{path}: removed, a sheet of the earlier drawing")
        except OSError as error:
            done.append(f"{path}: a sheet of the earlier drawing, can't be removed: {error.strerror or error}")
    return done


def _beyond(target: Path, count: int) -> list[tuple[int, Path]]:
    named = re.compile(re.escape(target.stem) + r"-([1-9]\d{0,3})" + re.escape(target.suffix))
    matches = ((named.fullmatch(path.name), path) for path in target.absolute().parent.iterdir())
    found = [(int(match[1]), target.with_name(path.name)) for match, path in matches if match and path.is_file()]
    return sorted((number, path) for number, path in found if number > count)


def _sheet(path: Path) -> tuple[str, int]:
    """Title and number of a sheet that we have written, ("", 0) for any other file."""
    from diagrammer.drawing import png

    try:
        with path.open("rb") as file:
            head = file.read(HEAD)
    except OSError:
        return "", 0
    svg = SVG.search(head.decode("utf-8", "replace"))
    words = SHEET.fullmatch(html.unescape(svg[1]) if svg else png.title(head))
    return (words[1], int(words[2])) if words else ("", 0)
