"""Where a symbol's ink lies: points along its strokes, and the box round them."""

from __future__ import annotations

import math

from diagrammer.lettering.width import CAPITALS, width
from diagrammer.symbols.symbol import Letter, Stroke, Symbol


def ink(stroke: Stroke) -> list[tuple[float, float]]:
    """Points along a stroke, close together."""
    if stroke.form == "circle":
        (x, y), r = stroke.points[0], stroke.radius
        return [(x + r * math.cos(n * math.pi / 90), y + r * math.sin(n * math.pi / 90)) for n in range(180)]
    if stroke.form == "arc":
        return arc(*stroke.points)
    ends = stroke.points + (stroke.points[:1] if stroke.form == "area" else ())
    return [
        (ax + (bx - ax) * n / 50, ay + (by - ay) * n / 50)
        for (ax, ay), (bx, by) in zip(ends, ends[1:]) for n in range(51)
    ]


def arc(a, b, c) -> list[tuple[float, float]]:
    """Points of the circle through three points, from the first over the second to the third."""
    d = 2 * (a[0] * (b[1] - c[1]) + b[0] * (c[1] - a[1]) + c[0] * (a[1] - b[1]))
    squares = [x * x + y * y for x, y in (a, b, c)]
    x = (squares[0] * (b[1] - c[1]) + squares[1] * (c[1] - a[1]) + squares[2] * (a[1] - b[1])) / d
    y = (squares[0] * (c[0] - b[0]) + squares[1] * (a[0] - c[0]) + squares[2] * (b[0] - a[0])) / d
    start, over, end = (math.atan2(p[1] - y, p[0] - x) for p in (a, b, c))
    turn = (end - start) % (2 * math.pi)
    if (over - start) % (2 * math.pi) > turn:
        turn -= 2 * math.pi
    r = math.dist(a, (x, y))
    return [(x + r * math.cos(start + turn * n / 90), y + r * math.sin(start + turn * n / 90)) for n in range(91)]


def letter_corners(letter: Letter) -> list[tuple[float, float]]:
    wide, (x, y) = width(letter.text, letter.height / CAPITALS), letter.at
    return [(x + dx * wide / 2, y + dy * letter.height / 2) for dx in (-1, 1) for dy in (-1, 1)]


def all_ink(symbol: Symbol) -> list[tuple[float, float]]:
    return [point for stroke in symbol.strokes for point in ink(stroke)]
