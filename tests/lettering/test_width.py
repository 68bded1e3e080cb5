"""Properties of the text widths, and the widths against the published ones of a font of the same metrics."""

from __future__ import annotations

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


# Adobe Font Metrics of Helvetica and Helvetica-Bold, widths of U+0020 to U+007E in 1/1000 em, whose metrics this font
# shares; from memory. The two quotes are those of ASCII (quotesingle, grave).
HELVETICA = """
278 278 355 556 556 889 667 191 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 278 278 584 584
584 556 1015 667 667 722 722 667 611 778 722 278 500 667 556 833 722 778 667 778 722 667 611 722 667 944 667 667 611 278
278 278 469 556 333 556 556 500 556 556 278 556 556 222 222 500 222 833 556 556 556 556 333 500 278 556 500 722 500 500
500 334 260 334 584"""
HELVETICA_BOLD = """
278 333 474 556 556 889 722 238 333 333 389 584 278 333 278 278 556 556 556 556 556 556 556 556 556 556 333 333 584 584
584 611 975 722 722 722 722 667 611 778 722 278 556 722 611 833 722 778 667 778 722 667 611 722 667 944 667 667 611 333
278 333 584 556 333 556 611 556 611 556 333 611 611 278 278 556 278 889 611 611 611 611 389 556 333 611 556 778 556 556
500 389 280 389 584"""


@pytest.mark.parametrize("metrics, bold", [(HELVETICA, False), (HELVETICA_BOLD, True)])
def test_widths_are_those_of_helvetica(metrics, bold):
    published = [int(width_) for width_ in metrics.split()]
    assert len(published) == 95
    for code, expected in zip(range(0x20, 0x7F), published):
        assert width(chr(code), 1000, bold) == pytest.approx(expected, abs=0.6), chr(code)
