"""PDF and PNG show what the SVG shows, compared with another renderer of SVG, and words stay words at their places."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from dataclasses import replace

import pytest

from diagrammer.drawing import paper, png
from diagrammer.drawing.style import Look
from diagrammer.drawing.write import svg
from diagrammer.lettering.width import width
from tests.drawing.small_scene import scene

pytest.importorskip("typst")
pytest.importorskip("fontpkg_arimo")
Image = pytest.importorskip("PIL.Image")
pypdfium2 = pytest.importorskip("pypdfium2")
from PIL import ImageChops, ImageFilter  # noqa: E402

needs_rsvg = pytest.mark.skipif(shutil.which("rsvg-convert") is None, reason="rsvg-convert is not installed")
DPI, POINT = 150, 25.4 / 72  # POINT [mm] of PDF
BLUR = 3  # [pixels] half a millimetre: edges are smoothed differently by every renderer
NEAR = 0.75  # of the difference that missing dashes make: measured 0.55 at most


def grey(picture: bytes):
    image = Image.open(io.BytesIO(picture)).convert("RGBA")
    white = Image.new("RGBA", image.size, "white")
    white.alpha_composite(image)
    return white.convert("L")


def by_another_renderer(text: str):
    order = ["rsvg-convert", "-d", str(DPI), "-p", str(DPI)]
    return grey(subprocess.run(order, input=text.encode(), capture_output=True, check=True).stdout)


def worst(one, other) -> int:
    """The largest difference of two pictures, their edges blurred, 0 to 255."""
    assert all(abs(a - b) <= 1 for a, b in zip(one.size, other.size))
    wide, high = (min(sides) - 1 for sides in zip(one.size, other.size))  # the last pixel is only partly paper
    blurred = (image.crop((0, 0, wide, high)).filter(ImageFilter.GaussianBlur(BLUR)) for image in (one, other))
    return ImageChops.difference(*blurred).getextrema()[1]


def without_words(text: str) -> str:
    """Other renderers kern, so words are compared by their places (below), not by pictures."""
    return re.sub("<text[^>]*>[^<]*</text>", "", text)


@needs_rsvg
@pytest.mark.parametrize("colours", ["print", "grey", "night"])
def test_pictures_of_strokes_are_alike(colours, monkeypatch):
    look = Look(colours)
    plain = without_words(svg(scene().sheets[0], scene(), look))
    wanted = by_another_renderer(plain)
    most = NEAR * worst(wanted, by_another_renderer(plain.replace("stroke-dasharray", "x")))
    monkeypatch.setattr(paper, "svg", lambda *given: without_words(svg(*given)))
    assert worst(wanted, grey(paper.png(scene(), look, DPI)[0])) < most
    page = pypdfium2.PdfDocument(paper.pdf(scene(), look))[0]
    assert worst(wanted, page.render(scale=DPI / 72).to_pil().convert("L")) < most


@pytest.fixture(scope="module")
def document():
    return pypdfium2.PdfDocument(paper.pdf(scene()))


def test_words_stand_where_the_scene_has_them(document):
    """Each text that stands once: its beginning, its base line, and its width by the table of lettering [mm]."""
    page = document[0]
    words, high, seen = page.get_textpage(), page.get_height(), 0
    every = [text.text for text in scene().sheets[0].texts]
    for text in scene().sheets[0].texts:
        alone = sum(text.text in other for other in every) == 1 and len(text.text) > 3
        if text.anchor != "start" or not alone or not text.text.isascii():
            continue
        at = words.search(text.text, match_case=True).get_next()
        assert at, text.text
        (left, *_), (*_, right, _) = (words.get_charbox(n, loose=True) for n in (at[0], at[0] + at[1] - 1))
        assert left * POINT == pytest.approx(text.x, abs=0.05)
        assert (right - left) * POINT == pytest.approx(width(text.text, text.size, text.bold), rel=0.01, abs=0.05)
        flat = next((n for n, c in enumerate(text.text) if c.isupper() and c not in "CGJOQSU"), None)
        if flat is not None:
            assert (high - words.get_charbox(at[0] + flat)[1]) * POINT == pytest.approx(text.y, abs=0.05)
        seen += 1
    assert seen > 40


def test_pages_have_the_true_size_and_every_finding_can_be_searched(document):
    assert len(document) == 1
    assert [round(side * POINT, 1) for side in document[0].get_size()] == [420, 297]
    said = " ".join(document[0].get_textpage().get_text_range().split())
    for row in scene().sheets[0].rows:
        assert " ".join(row.text) in said


def test_every_sheet_is_a_page_of_its_own_size():
    first = scene().sheets[0]
    both = replace(scene(), sheets=(first, replace(first, number=2, width=297.0, height=210.0)))
    pages = [[round(side * POINT) for side in page.get_size()] for page in pypdfium2.PdfDocument(paper.pdf(both))]
    assert pages == [[420, 297], [297, 210]]


def test_a_png_tells_its_title_and_its_size_on_paper():
    made, = paper.png(scene(), dpi=100)
    image = Image.open(io.BytesIO(made))
    assert image.text["Title"] == png.title(made) == "Cabin, 24 V: Main bar, sheet 1 of 2"
    assert [side / dpi * 25.4 for side, dpi in zip(image.size, image.info["dpi"])] == pytest.approx([420, 297], abs=0.3)
    assert png.title(b"\x89PNG\r\n\x1a\n" + b"\xff" * 40) == png.title(b"<svg") == ""


def test_the_same_drawing_gives_the_same_bytes():
    assert paper.pdf(scene()) == paper.pdf(scene())


def test_a_title_is_never_read_as_source():
    """Typst's own markup in a netlist stays text."""
    hostile = replace(scene(), title='#panic("no") $x$ " \\ ')
    assert pypdfium2.PdfDocument(paper.pdf(hostile)).get_metadata_value("Title") == hostile.title
