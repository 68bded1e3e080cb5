"""A scene's sheet as one SVG file. Nothing but the scene is read, so the same scene gives the same bytes."""

from __future__ import annotations

from diagrammer.drawing.sheet import groups
from diagrammer.drawing.style import style
from diagrammer.drawing.svg import NAMESPACE, element, number, render
from diagrammer.layout.scene import Scene, Sheet


def svg(sheet: Sheet, scene: Scene) -> str:
    """The sheet in millimetres. No script, no foreign content, no reference to anything outside."""
    width, height = number(sheet.width), number(sheet.height)
    title, description = f"s{sheet.number}-title", f"s{sheet.number}-desc"
    tree = element(
        "svg",
        element("title", _title(sheet, scene), id=title),
        element("desc", scene.description, id=description),
        element("style", style()),
        element("rect", class_="paper", width=width, height=height),
        element("g", *groups(sheet), class_="sheet"),
        xmlns=NAMESPACE, class_="diagram", role="img", aria_labelledby=title, aria_describedby=description,
        width=f"{width}mm", height=f"{height}mm", viewBox=f"0 0 {width} {height}",
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{render(tree)}\n'


def _title(sheet: Sheet, scene: Scene) -> str:
    words = scene.title if sheet.title in ("", scene.title) else f"{scene.title}: {sheet.title}"
    return words if sheet.count == 1 else f"{words}, sheet {sheet.number} of {sheet.count}"
