"""The one style block: every weight, dash and colour of the drawing.

No custom properties, and one class a selector, so that renderers outside browsers and the import of
office programs read it too: these know no other selectors, take what stands in @media as if it stood
outside, and of an element's classes hear the first, so that the most special one stands first there. Severities
differ by shape first; their colours keep 4.5:1 on paper (WCAG 2, 1.4.3), numerals on them as well.
"""

from __future__ import annotations

from diagrammer.frozen import frozen


# What the colours are for: a screen (light, or dark where the reader prefers that), a dark one, paper, paper in grey.
COLOURS = {"screen": "light", "night": "dark", "print": "light", "grey": "grey"}
FAMILY = 'Arial, "Liberation Sans", Arimo, Helvetica, sans-serif'  # all of one metric

THIN, LINE, WIDE = 0.18, 0.35, 0.5  # [mm] ISO 128-2 widths
HEAVY = 0.8  # [mm] what a symbol draws thick

WEIGHTS = {"dc": WIDE, "ac": LINE, "earth": LINE, "return": 0.25, "signal": THIN, "fault": WIDE}
DASHES = {"earth": "4 0.8 0.4 0.8", "signal": "1.6 0.8"}  # chain line; dashed: common practice

INK = {"light": "#000000", "dark": "#e6e6e6", "grey": "#000000"}
PAPER = {"light": "#ffffff", "dark": "#16191d", "grey": "#ffffff"}
QUIET = {"light": "#4a4a4a", "dark": "#b4b4b4", "grey": "#4a4a4a"}  # sizes of conductors, captions
SEVERITY = {
    "danger": {"light": "#b0001e", "dark": "#ff8f85", "grey": "#000000"},
    "warning": {"light": "#8a4b00", "dark": "#f5b25c", "grey": "#404040"},
    "notice": {"light": "#0b5394", "dark": "#8cc0ff", "grey": "#666666"},
}


@frozen
class Look:
    """Colours (a name of COLOURS) and the names of fonts, the best first."""

    colours: str = "screen"
    family: str = FAMILY


def _colours(mode: str) -> list[str]:
    ink, paper, quiet = INK[mode], PAPER[mode], QUIET[mode]
    rules = [
        f".sheet{{color:{ink}}}", f".paper{{fill:{paper}}}", f".words{{fill:{ink}}}",
        f".wire-text{{fill:{quiet}}}", f".caption{{fill:{quiet}}}", f".numeral{{fill:{paper}}}",
    ]
    for severity, shades in SEVERITY.items():
        shade = shades[mode]
        rules += [
            f".{severity}-mark{{fill:{shade};stroke:{shade}}}", f".{severity}-hollow{{fill:{paper};stroke:{shade}}}",
            f".{severity}-numeral{{fill:{shade}}}", f".{severity}-edge{{stroke:{shade}}}",
        ]
    return rules


def _shapes(family: str) -> list[str]:
    stroked = ("stroke", "line", "bar", "rule", "leader", "outline", "tag")
    return [
        f".words{{font-family:{family};font-kerning:none;text-rendering:geometricPrecision}}",
        ".bold{font-weight:bold}",
        *(f".{name}{{fill:none;stroke:currentColor}}" for name in stroked),
        f".stroke{{stroke-width:{LINE};stroke-linejoin:miter}}",
        f".heavy{{stroke-width:{HEAVY}}}",
        ".dashed{stroke-dasharray:0.8 0.6}",
        ".solid{fill:currentColor;stroke:none}",
        f".line{{stroke-width:{LINE};stroke-linejoin:miter;stroke-linecap:butt}}",
        *(f".{name}-line{{stroke-width:{width}}}" for name, width in WEIGHTS.items()),
        *(f".{name}-line{{stroke-dasharray:{dash}}}" for name, dash in DASHES.items()),
        f".tag{{stroke-width:{THIN}}}",
        ".reference{stroke-width:0.25}",
        f".leader{{stroke-width:{THIN}}}",
        f".outline{{stroke-width:{LINE};stroke-dasharray:1.4 0.7}}",
        f".mark{{stroke-width:{LINE};stroke-linejoin:round}}",
    ]


def style(look: Look = Look(), width: float = 0.0, height: float = 0.0) -> str:
    """Style of the whole drawing. width, height [mm]: of the page it is printed on, 0 where that is open."""
    mode = COLOURS[look.colours]
    rules = [*_shapes(look.family), *_colours(mode)]
    if mode == "grey":  # a faulty conductor is told by its width, as no colour can
        rules += [f".{severity}-line{{stroke-width:{HEAVY}}}" for severity in SEVERITY]
    if look.colours == "screen":
        dark = "\n".join(f"svg.diagram {rule}" for rule in _colours("dark"))
        rules.append(f"@media screen and (prefers-color-scheme:dark){{\n{dark}\n}}")
        rules.append("@media print{svg.diagram .paper{fill:none}}")
    if width:
        rules.append(f"@page{{size:{width:g}mm {height:g}mm;margin:0}}")
    return "\n".join(rules)
