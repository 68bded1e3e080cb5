"""Properties of the text widths; the font itself is compared where fontTools and the font are there."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from diagrammer.lettering.width import CAPITALS, SMALLEST, advances, shorten, width, wrap

SIZES = st.floats(1, 10)
WORDS = st.lists(st.text("abcdefgWM0 Ωµ²-/é", min_size=1, max_size=14), max_size=12).map(" ".join)


@given(st.text(), st.text(), SIZES, st.booleans())
def test_width_adds_up(a, b, size, bold):
    assert width(a + b, size, bold) == pytest.approx(width(a, size, bold) + width(b, size, bold))


@given(st.text(), SIZES)
def test_width_grows_with_the_size(text, size):
    assert width(text, 2 * size) == pytest.approx(2 * width(text, size))


def test_published_widths_of_arial():
    """Space 569, digits 1139, W 1933 of 2048 units: Arial's hmtx table, from memory."""
    assert width(" ", 2048) == 569
    assert {width(digit, 2048) for digit in "0123456789"} == {1139}
    assert width("W", 2048) == 1933
    assert width("i", 2048, bold=True) == 569 > width("i", 2048)


def test_smallest_letters_are_those_of_iso_3098():
    assert SMALLEST * CAPITALS >= 1.8  # [mm] ISO 3098-1, smallest nominal size


def test_characters_of_the_trade_are_known():
    assert not set("ABCxyz0123456789 +-/.,:;()%°²³µΩΔΣ→←–—×·±≤≥≈−~=@#'\"&<>") - set(advances())


def test_unknown_characters_take_room_and_combining_ones_none():
    assert width("界", 1) == 1.0
    assert width("🔋", 1) >= 1.0
    assert width("e\u0301", 1) == width("e", 1)
    assert width("\u200d\u00ad\n", 1) == 0


@given(WORDS, st.floats(8, 60), st.integers(1, 5))
def test_wrapped_lines_fit(text, most, lines):
    wrapped = wrap(text, 2.6, most, lines)
    assert len(wrapped) <= lines
    assert all(line and line == line.strip() for line in wrapped)
    assert all(width(line, 2.6) <= most for line in wrapped)


@given(WORDS, st.floats(8, 60))
def test_wrapping_loses_nothing(text, most):
    wrapped = wrap(text, 2.6, most, 10_000)
    assert "".join(wrapped).replace(" ", "") == "".join(text.split())


@given(WORDS, st.floats(8, 60), st.integers(1, 3))
def test_a_cut_text_says_so(text, most, lines):
    cut = len(wrap(text, 2.6, most, 10_000)) > lines
    assert bool(cut) == (bool(text.split()) and wrap(text, 2.6, most, lines)[-1].endswith("…"))


@given(st.text("abc WM", max_size=30), st.floats(4, 40))
def test_shortened_text_fits_and_begins_alike(text, most):
    short = shorten(text, 2.6, most)
    assert width(short, 2.6) <= most
    assert text.startswith(short.removesuffix("…"))


def test_table_against_the_font():
    fonts = pytest.importorskip("fontTools.ttLib")
    for bold, name in enumerate(("Regular", "Bold")):
        file = Path(f"/usr/share/fonts/truetype/liberation2/LiberationSans-{name}.ttf")
        if not file.exists():
            pytest.skip("no Liberation Sans here")
        font = fonts.TTFont(file)
        names, metrics = font.getBestCmap(), font["hmtx"]
        assert {c: w[bold] for c, w in advances().items()} == {c: metrics[names[ord(c)]][0] for c in advances()}
        assert font["OS/2"].sCapHeight / 2048 == pytest.approx(CAPITALS, abs=1e-3)
