"""Which group each text of a sheet is drawn in: that of the thing it speaks of, so that both are found and read
together."""

from __future__ import annotations

from diagrammer.drawing import mark
from diagrammer.drawing.svg import Element, element
from diagrammer.layout.scene import Sheet, Text

CLASSES = {"wire": "wire-text", "caption": "caption"}
PLACES = {
    "frame": "frame", "title": "title-block", "caption": "title-block", "caution": "caution", "legend": "legend",
    "findings": "findings",
}


class Words:
    """The texts of a sheet by their group; each is given out once."""

    def __init__(self, sheet: Sheet):
        self.nodes = {thing.node for thing in (*sheet.shapes, *sheet.bars)} - {""}
        self.cables = {line.cable for line in sheet.lines} - {""}
        self.left: dict[tuple[str, object], list[Text]] = {}
        for text in sheet.texts:
            self.left.setdefault(self._place(text), []).append(text)

    def _place(self, text: Text) -> tuple[str, object]:
        if text.row:
            return "row", text.row
        if text.role in PLACES:
            return "group", PLACES[text.role]
        if text.owner in self.nodes:
            return "node", text.owner
        return ("cable", text.owner) if text.owner in self.cables else ("group", "labels")

    def of(self, sort: str, name: object) -> list[Element]:
        """Those of a "group", "row", "node" or "cable", the first time they are asked for."""
        return [_text(text) for text in self.left.pop((sort, name), ())]


def _text(line: Text) -> Element:
    written = mark.text(line, CLASSES.get(line.role, ""))
    return element("g", written, class_="label", data_node=line.owner) if line.owner else written
