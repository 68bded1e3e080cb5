"""A scene's sheets as SVG. Nothing but the scene and the look is read, so the same scene gives the same bytes."""

from __future__ import annotations

from diagrammer.drawing.sheet import groups
from diagrammer.drawing.style import Look, style
from diagrammer.drawing.svg import NAMESPACE, Element, element, number, render
from diagrammer.layout.findings_table import summary
from diagrammer.layout.scene import Scene, Sheet

APART = 10.0  # [mm] between sheets that stand below one another


def svg(sheet: Sheet, scene: Scene, look: Look = Look()) -> str:
    """The sheet in millimetres. No script, no foreign content, no reference to anything outside."""
    name = f"s{sheet.number}"
    return _file(
        name, sheet_title(sheet, scene), scene, sheet.width, sheet.height,
        style(look, sheet.width, sheet.height), *_page(sheet),
    )


def together(scene: Scene, look: Look = Look()) -> str:
    """All sheets below one another in one SVG."""
    width, pages, top = max(sheet.width for sheet in scene.sheets), [], 0.0
    for sheet in scene.sheets:
        title = element("title", sheet_title(sheet, scene))
        move = f"translate(0 {number(top)})" if top else None
        pages.append(element("g", title, *_page(sheet), class_="page", id=f"s{sheet.number}", transform=move))
        top += sheet.height + APART
    return _file("s0", scene.title, scene, width, top - APART, style(look, width, top - APART), *pages)


def sheet_title(sheet: Sheet, scene: Scene) -> str:
    """"Cabin: Main bar, sheet 1 of 2"."""
    words = scene.title if sheet.title in ("", scene.title) else f"{scene.title}: {sheet.title}"
    return words if sheet.count == 1 else f"{words}, sheet {sheet.number} of {sheet.count}"


def description(scene: Scene) -> str:
    """What is drawn, and how many findings there are."""
    rows = [row for sheet in scene.sheets for row in sheet.rows]
    return f"{scene.description} Findings: {summary(rows) or 'none'}."


def _page(sheet: Sheet) -> list[Element]:
    paper = element("rect", class_="paper", width=number(sheet.width), height=number(sheet.height))
    return [paper, element("g", *groups(sheet), class_="sheet")]


def _file(name: str, title: str, scene: Scene, wide: float, high: float, rules: str, *content: Element) -> str:
    """A document, not an image: what it holds can be read out part by part (WAI-ARIA Graphics Module)."""
    width, height = number(wide), number(high)
    tree = element(
        "svg",
        element("title", title, id=f"{name}-title"),
        element("desc", description(scene), id=f"{name}-desc"),
        element("style", rules, type="text/css"),
        *content,
        xmlns=NAMESPACE, class_="diagram", role="graphics-document document",
        aria_labelledby=f"{name}-title", aria_describedby=f"{name}-desc",
        width=f"{width}mm", height=f"{height}mm", viewBox=f"0 0 {width} {height}",
    )
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{render(tree)}\n'
