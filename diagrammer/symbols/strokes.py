"""The pieces symbols are made of, and what several of them share. Millimetres, y downwards."""

from __future__ import annotations

from collections.abc import Mapping

from diagrammer.symbols.symbol import Letter, Point, Stroke, Symbol


def line(*points: Point, heavy: bool = False) -> Stroke:
    return Stroke("line", points, heavy=heavy)


def dash(*points: Point) -> Stroke:
    return Stroke("dash", points)


def area(*points: Point, filled: bool = False) -> Stroke:
    return Stroke("area", points, filled=filled)


def circle(at: Point, radius: float, filled: bool = False) -> Stroke:
    return Stroke("circle", (at,), radius, filled)


def arc(start: Point, over: Point, end: Point) -> Stroke:
    return Stroke("arc", (start, over, end))


def box(left: float, top: float, right: float, bottom: float, filled: bool = False) -> Stroke:
    return area((left, top), (right, top), (right, bottom), (left, bottom), filled=filled)


def symbol(
    name: str, width: float, height: float, strokes: tuple[Stroke, ...], ports: Mapping[str, Point],
    says: str, source: str, letters: tuple[Letter, ...] = (),
) -> Symbol:
    """A symbol whose lines leave each port square to the edge of the bound it lies on."""
    sides = {port: _side(at, width, height) for port, at in ports.items()}
    return Symbol(name, width, height, strokes, dict(ports), sides, says, source, letters)


def _side(at: Point, width: float, height: float) -> str:
    edges = {"up": at[1] == -height / 2, "down": at[1] == height / 2,
             "left": at[0] == -width / 2, "right": at[0] == width / 2}
    return next(side for side, there in edges.items() if there)


def through(height: float) -> dict[str, Point]:
    """Ports of what current passes from top to bottom."""
    return {"1": (0, -height / 2), "2": (0, height / 2)}


def sink(height: float) -> dict[str, Point]:
    """Ports of a load: fed from above, its return below."""
    return {**through(height), "main": (0, -height / 2)}


def source(height: float) -> dict[str, Point]:
    """Ports of a source: its line leaves downwards, the return above."""
    return {"1": (0, height / 2), "2": (0, -height / 2), "main": (0, height / 2)}


# What opens: hinged below, the blade to the left of the line, so that it closes to the right (and
# upwards, when turned for a row).
GAP = 1.75
BLADE_END: Point = (-2, -GAP)


def contact(half: float, x: float = 0, y: float = 0) -> tuple[Stroke, ...]:
    """Fixed contact, blade and hinge of a vertical line that reaches `half` up and down."""
    return (
        line((x, y - half), (x, y - GAP)),
        line((x + BLADE_END[0], y + BLADE_END[1]), (x, y + GAP), (x, y + half)),
    )


def cross(x: float, y: float, half: float = 0.8) -> tuple[Stroke, ...]:
    """The saltire at a fixed contact that makes a switch a circuit-breaker."""
    return tuple(line((x - half, y - half * way), (x + half, y + half * way)) for way in (1, -1))


def ring(y: float, half: float = 2.0, radius: float = 0.75) -> tuple[Stroke, ...]:
    """The core of a current transformer round a vertical line: what senses residual current."""
    straight = half - radius
    return (
        line((-straight, y - radius), (straight, y - radius)),
        arc((straight, y - radius), (half, y), (straight, y + radius)),
        line((straight, y + radius), (-straight, y + radius)),
        arc((-straight, y + radius), (-half, y), (-straight, y - radius)),
    )


CONVERTER = 9.0  # width and height of a converter's square


def converter(
    name: str, signs: tuple[str, str], ports: Mapping[str, Point], says: str, number: str,
) -> Symbol:
    """Square with a diagonal: what goes in stands upper left, what comes out lower right."""
    half = CONVERTER / 2
    return symbol(
        name, CONVERTER, CONVERTER,
        (box(-half, -half, half, half), line((-half, half), (half, -half))),
        {**through(CONVERTER), **ports}, says, number,
        (_sign((-2.0, -2.2), signs[0]), _sign((2.0, 2.2), signs[1])),
    )


def _sign(at: Point, sign: str, fixed: bool = False) -> Letter:
    return Letter(at, sign, 3.2 if sign == "~" else 2.4, fixed)  # the tilde of a text font is small


def machine(name: str, letter: str, sign: str, ports: Mapping[str, Point], says: str, number: str) -> Symbol:
    """Rotating machine: a circle of 8 mm with its letter and, below it, its current."""
    letters = (Letter((0, -1.1), letter, 2.5, fixed=True), _sign((0, 2.1), sign, fixed=True))
    return symbol(name, 8, 8, (circle((0, 0), 4),), ports, says, number, letters)
