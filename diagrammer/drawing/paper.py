"""Sheets as PDF and as PNG, for whoever has no browser: typst sets each SVG on a page of its own size.

Words stay words, in a font of known widths (Arimo, of Arial's metrics) that goes into the PDF; characters which that
one lacks come from the fonts of the machine. Without typst or the font: ModuleNotFoundError.
"""

from __future__ import annotations

from dataclasses import replace
from importlib import resources

from diagrammer.drawing.png import labelled
from diagrammer.drawing.style import FAMILY, Look
from diagrammer.drawing.write import description, sheet_title, svg
from diagrammer.layout.scene import Scene

FONT = "Arimo"
DOCUMENT = """
#set document(title: sys.inputs.title, description: sys.inputs.description, date: none)
#set page(margin: 0mm)
#for n in range(int(sys.inputs.count)) {
  let of(name) = sys.inputs.at(name + str(n))
  page(
    width: float(of("width")) * 1mm, height: float(of("height")) * 1mm,
    image(bytes(of("svg")), format: "svg", alt: of("alt"), width: 100%, height: 100%),
  )
}
"""


def pdf(scene: Scene, look: Look = Look("print")) -> bytes:
    """All sheets, a page each, at their true size."""
    return _compiled(scene, look, "pdf")


def png(scene: Scene, look: Look = Look("print"), dpi: int = 150) -> tuple[bytes, ...]:
    """A picture of each sheet. dpi: pixels an inch of paper."""
    made = _compiled(scene, look, "png", ppi=float(dpi))
    pictures = [made] if isinstance(made, bytes) else made
    return tuple(labelled(one, sheet_title(sheet, scene), dpi) for one, sheet in zip(pictures, scene.sheets))


def _compiled(scene: Scene, look: Look, form: str, **options: object):
    """What typst makes of the document; it gets texts as inputs, never as source."""
    import fontpkg_arimo
    import typst

    look = replace(look, family=f"{FONT}, {FAMILY}")
    with resources.as_file(resources.files(fontpkg_arimo) / "files") as fonts:
        inputs = _inputs(scene, look)
        return typst.compile(DOCUMENT.encode(), format=form, font_paths=[str(fonts)], sys_inputs=inputs, **options)


def _inputs(scene: Scene, look: Look) -> dict[str, str]:
    inputs = {"title": scene.title, "description": description(scene), "count": str(len(scene.sheets))}
    for n, sheet in enumerate(scene.sheets):
        inputs |= {f"svg{n}": svg(sheet, scene, look), f"alt{n}": sheet_title(sheet, scene)}
        inputs |= {f"width{n}": str(sheet.width), f"height{n}": str(sheet.height)}
    return inputs
