"""Colours: legible on paper and on dark screens, and only in the style block."""

from __future__ import annotations

import re

import pytest

from diagrammer.drawing.style import COLOURS, DASHES, HEAVY, INK, PAPER, QUIET, SEVERITY, WEIGHTS, Look, style
from diagrammer.text.finding import SEVERITIES


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 definition."""
    parts = (int(colour[n:n + 2], 16) / 255 for n in (1, 3, 5))
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: str, b: str) -> float:
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_by_definition():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)  # WCAG 2.2: black on white
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # often quoted as just too pale; from memory


@pytest.mark.parametrize("mode", sorted(set(COLOURS.values())))
def test_words_and_numerals_are_legible(mode):
    """WCAG 2.2, 1.4.3: 4.5 for text; numerals have the paper's colour, on the severity's."""
    for colour in (INK[mode], QUIET[mode], *(SEVERITY[severity][mode] for severity in SEVERITIES)):
        assert contrast(colour, PAPER[mode]) >= 4.5


def test_grey_is_grey_and_its_shades_are_apart():
    """Three shades that print apart; shapes tell the severities, widths the faulty conductors."""
    shades = [SEVERITY[severity]["grey"] for severity in SEVERITIES]
    assert all(shade[1:3] == shade[3:5] == shade[5:] for shade in (*shades, INK["grey"], QUIET["grey"]))
    assert len(set(shades)) == 3
    assert HEAVY > max(WEIGHTS.values())
    for severity in SEVERITIES:
        assert f".{severity}-line{{stroke-width:{HEAVY}}}" in style(Look("grey"))


@pytest.mark.parametrize("colours", list(COLOURS))
def test_only_a_screens_style_depends_on_the_reader(colours):
    written = style(Look(colours))
    assert ("@media" in written) == (colours == "screen")
    assert (f".paper{{fill:{PAPER['dark']}}}" in written) == (colours in ("screen", "night"))
    assert (f".paper{{fill:{PAPER['light']}}}" in written) == (colours != "night")


@pytest.mark.parametrize("colours", list(COLOURS))
def test_selectors_are_single_classes(colours):
    """Importers of office programs know no others, and do not know what @media is for; seen with LibreOffice 7.4."""
    plain, _, media = style(Look(colours)).partition("@media")
    selectors = re.findall(r"^([^@{}\n]+)\{", plain, re.M)
    assert len(selectors) > 40
    assert [one for one in selectors if not re.fullmatch(r"[.][a-z-]+", one)] == []
    assert all(one.startswith("svg.diagram .") for one in re.findall(r"^([^@{}\n]+)\{", media, re.M)[1:])


def test_every_severity_has_colours():
    assert set(SEVERITY) == set(SEVERITIES)


def test_every_weight_of_a_line_is_its_own():
    """Domains are told apart without colour: no two have the same width and dash."""
    assert set(WEIGHTS) == {"dc", "ac", "earth", "return", "signal", "fault"}
    sound = [(WEIGHTS[name], DASHES.get(name)) for name in WEIGHTS if name != "fault"]
    assert len(set(sound)) == len(sound)


def test_style_asks_for_nothing_from_outside():
    assert "url" not in style() and "@import" not in style() and "@font-face" not in style()
    assert "font-kerning:none" in style() and style().index("Arial") < style().index("sans-serif")
