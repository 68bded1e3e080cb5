"""A symbol at its place: its strokes turned, its letters not."""

from __future__ import annotations

import math
from dataclasses import replace

from diagrammer.drawing.svg import Element, element, number, points
from diagrammer.layout.scene import Point, Shape
from diagrammer.lettering.width import CAPITALS
from diagrammer.symbols.symbol import Stroke


def turned(at: Point, turn: int) -> Point:
    """A point turned clockwise round the origin by 0, 90, 180 or 270."""
    x, y = at
    return {0: (x, y), 90: (-y, x), 180: (-x, -y), 270: (y, -x)}[turn]


def place(shape: Shape, at: Point) -> Point:
    """A point of the symbol, on the sheet."""
    x, y = turned(at, shape.turn)
    return (shape.x + x, shape.y + y)


def draw(shape: Shape) -> list[Element]:
    """Strokes of one look in one path, then the letters."""
    looks: dict[str, list[str]] = {}
    for stroke in shape.symbol.strokes:
        looks.setdefault(_look(stroke), []).append(_data(stroke, shape))
    paths = [element("path", class_=look, d="".join(data)) for look, data in looks.items()]
    return paths + [_letter(shape, letter) for letter in shape.symbol.letters]


def _look(stroke: Stroke) -> str:
    if stroke.filled:
        return "solid"
    return ("heavy " if stroke.heavy else "") + ("dashed " if stroke.form == "dash" else "") + "stroke"


def _data(stroke: Stroke, shape: Shape) -> str:
    path = [place(shape, at) for at in stroke.points]
    if stroke.form == "circle":
        return _circle(path[0], stroke.radius)
    if stroke.form == "arc":
        return _arc(*path)
    return points(path, closed=stroke.form == "area")


def _circle(at: Point, radius: float) -> str:
    x, y, r = at[0], at[1], number(radius)
    half = f"A{r} {r} 0 0 1 "
    left, right = f"{number(x - radius)} {number(y)}", f"{number(x + radius)} {number(y)}"
    return f"M{left}{half}{right}{half}{left}Z"


def _arc(start: Point, over: Point, end: Point) -> str:
    """Path data of the circle's arc through three points."""
    (ax, ay), (bx, by), (cx, cy) = start, over, end
    cross = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)  # twice the triangle's area, signed
    sides = math.dist(start, over) * math.dist(over, end) * math.dist(end, start)
    radius = number(sides / (2 * abs(cross)))
    dot = (ax - bx) * (cx - bx) + (ay - by) * (cy - by)  # > 0: an acute angle, more than half a circle
    large, sweep = int(dot > 0), int(cross > 0)
    return f"{points([start])}A{radius} {radius} 0 {large} {sweep} {number(cx)} {number(cy)}"


def _letter(shape: Shape, letter) -> Element:
    x, y = place(replace(shape, turn=0) if letter.fixed else shape, letter.at)
    return element("text", letter.text, class_="letter words", x=float(x), y=float(y + letter.height / 2),
                   font_size=letter.height / CAPITALS, text_anchor="middle")
