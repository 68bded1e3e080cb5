"""The title block: data fields of ISO 7200, in the lower right corner of the frame."""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.layout.paper import Rule, outline
from diagrammer.layout.scene import Box, Text
from diagrammer.lettering.width import CAPITALS, SMALLEST, shorten, width, wrap

WIDTH, HEIGHT = 180.0, 27.0  # [mm]
VALUE = 2.5 / CAPITALS  # [mm] font size of values, and
TITLE = 3.5 / CAPITALS  # of the title: capitals of 2.5 and 3.5 mm (ISO 3098)
PAD = 1.0

# field: its cell, as left, top, right, bottom [mm] in the block. Mandatory in ISO 7200: legal owner,
# identification number, date of issue, sheet, title, approval person, creator, document type.
CELLS: dict[str, tuple[float, float, float, float]] = {
    "legal owner": (0, 0, 55, 9),
    "creator": (55, 0, 90, 9),
    "approved by": (90, 0, 125, 9),
    "document type": (125, 0, 180, 9),
    "title": (0, 9, 122, 27),
    "identification number": (122, 9, 166, 18),
    "revision": (166, 9, 180, 18),
    "date of issue": (122, 18, 147, 27),
    "language": (147, 18, 162, 27),
    "sheet": (162, 18, 180, 27),
}
CAPTIONS = {"revision": "Rev.", "language": "Lang."}
FIELDS = (*CELLS, "supplementary title")


def check(block: Mapping[str, str]) -> None:
    """Raises ValueError for a field that the block does not have."""
    unknown = [name for name in block if name not in FIELDS]
    if unknown:
        raise ValueError(f"the title block has no field {unknown[0]!r}")


def rules(box: Box) -> tuple[Rule, ...]:
    """Lines between the cells, and the heavier one round all of them."""
    cells = (line for cell in CELLS.values() for line in outline(_cell(box, cell), 0.35))
    inner = dict.fromkeys((min(a, b), max(a, b), weight) for a, b, weight in cells)
    return (*(rule for rule in inner if not _on_edge(rule, box)), *outline(box, 0.7))


def texts(box: Box, block: Mapping[str, str]) -> tuple[Text, ...]:
    """Captions, and the values there are."""
    return tuple(
        text for name, cell in CELLS.items() for text in (_caption(box, name, cell), *_value(box, name, cell, block))
    )


def _cell(box: Box, cell: tuple[float, float, float, float]) -> Box:
    left, top, right, bottom = cell
    return Box(box.x + left, box.y + top, right - left, bottom - top)


def _on_edge(rule: Rule, box: Box) -> bool:
    (ax, ay), (bx, by), _ = rule
    return ax == bx in (box.x, box.x + box.width) or ay == by in (box.y, box.y + box.height)


def _caption(box: Box, name: str, cell) -> Text:
    at = _cell(box, cell)
    return Text(at.x + PAD, at.y + 2.7, CAPTIONS.get(name, name.capitalize()), SMALLEST, "caption")


def _value(box: Box, name: str, cell, block: Mapping[str, str]) -> list[Text]:
    at, text = _cell(box, cell), block.get(name, "").strip()
    if name == "title":
        return _title(at, text, block.get("supplementary title", "").strip())
    return [_fitted(text, at, at.y + 7.4, VALUE)] if text else []


def _fitted(text: str, at: Box, y: float, size: float) -> Text:
    """In the usual size if it fits, else in the smallest, else cut with an ellipsis."""
    most = at.width - 2 * PAD
    size = size if width(text, size) <= most else SMALLEST
    return Text(at.x + PAD, y, shorten(text, size, most), size, "title")


def _title(at: Box, title: str, more: str) -> list[Text]:
    """The title in one large line, or in two of the usual size; the supplementary title below."""
    most = at.width - 2 * PAD
    large = width(title, TITLE) <= most
    lines = (title,) if large else wrap(title, VALUE, most, 2)
    size, pitch = (TITLE, 6.0) if large else (VALUE, 4.2)
    texts = [Text(at.x + PAD, at.y + 8.6 + pitch * n, line, size, "title") for n, line in enumerate(lines) if line]
    return texts + ([_fitted(more, at, at.y + 16.4, VALUE if large else SMALLEST)] if more else [])
