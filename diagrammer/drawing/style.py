"""The one style block: every weight, dash and colour of the drawing.

No custom properties and no nesting, so that renderers outside browsers read it too. Severities
differ by shape first; their colours keep 4.5:1 on paper (WCAG 2, 1.4.3), numerals on them as well.
"""

from __future__ import annotations

FAMILY = 'Arial, "Liberation Sans", Arimo, Helvetica, sans-serif'  # all of one metric

THIN, LINE, WIDE = 0.18, 0.35, 0.5  # [mm] ISO 128-2 widths
HEAVY = 0.8  # [mm] what a symbol draws thick

WEIGHTS = {"dc": WIDE, "ac": LINE, "earth": LINE, "return": 0.25, "signal": THIN, "fault": WIDE}
DASHES = {"earth": "4 0.8 0.4 0.8", "signal": "1.6 0.8"}  # chain line; dashed: common practice

INK = {"light": "#000000", "dark": "#e6e6e6"}
PAPER = {"light": "#ffffff", "dark": "#16191d"}
QUIET = {"light": "#4a4a4a", "dark": "#b4b4b4"}  # sizes of conductors, captions
SEVERITY = {
    "danger": {"light": "#b0001e", "dark": "#ff8f85"},
    "warning": {"light": "#8a4b00", "dark": "#f5b25c"},
    "notice": {"light": "#0b5394", "dark": "#8cc0ff"},
}


def _colours(mode: str) -> list[str]:
    ink, paper, quiet = INK[mode], PAPER[mode], QUIET[mode]
    rules = [
        f".diagram{{color:{ink}}}",
        f".paper{{fill:{paper}}}",
        f".diagram text{{fill:{ink}}}",
        f".diagram .wire-text,.diagram .caption{{fill:{quiet}}}",
        f".diagram .numeral{{fill:{paper}}}",
    ]
    for severity, shades in SEVERITY.items():
        shade = shades[mode]
        rules += [
            f".diagram .{severity} .mark{{fill:{shade};stroke:{shade}}}",
            f".diagram .{severity}.accepted .mark{{fill:{paper}}}",
            f".diagram .{severity}.accepted .numeral{{fill:{shade}}}",
            f".diagram .{severity} .outline,.diagram .{severity} .leader,.diagram .line.{severity}{{stroke:{shade}}}",
        ]
    return rules


def _shapes() -> list[str]:
    weights = [f".line.{name}{{stroke-width:{width}}}" for name, width in WEIGHTS.items()]
    dashes = [f".line.{name}{{stroke-dasharray:{dash}}}" for name, dash in DASHES.items()]
    return [
        f".diagram text{{font-family:{FAMILY};font-kerning:none;text-rendering:geometricPrecision}}",
        ".diagram .bold,.diagram .numeral{font-weight:bold}",
        ".stroke,.line,.bar,.rule,.leader,.outline,.tag{fill:none;stroke:currentColor}",
        f".stroke{{stroke-width:{LINE};stroke-linejoin:miter}}",
        f".heavy{{stroke-width:{HEAVY}}}",
        ".dashed{stroke-dasharray:0.8 0.6}",
        ".solid{fill:currentColor;stroke:none}",
        f".line{{stroke-width:{LINE};stroke-linejoin:miter;stroke-linecap:butt}}",
        *weights, *dashes,
        f".tag{{stroke-width:{THIN}}}",
        ".to .tag,.from .tag{stroke-width:0.25}",
        f".leader{{stroke-width:{THIN}}}",
        f".outline{{stroke-width:{LINE};stroke-dasharray:1.4 0.7}}",
        f".mark{{stroke-width:{LINE};stroke-linejoin:round}}",
    ]


def style() -> str:
    """Style of the whole drawing: light, dark where the reader's screen asks for it, light in print."""
    light, dark = "\n".join(_colours("light")), "\n".join(_colours("dark"))
    return "\n".join([
        *_shapes(), light,
        f"@media screen and (prefers-color-scheme:dark){{\n{dark}\n}}",
        "@media print{.paper{fill:none}}",
    ])
