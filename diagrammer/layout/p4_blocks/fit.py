"""Symbols fitted to what lands on them: ports where the lines come, the body as wide as they need."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from diagrammer.layout.scene import Point, Shape
from diagrammer.symbols.symbol import Letter, Stroke, Symbol

TURNS = {0: lambda x, y: (x, y), 90: lambda x, y: (-y, x), 180: lambda x, y: (-x, -y), 270: lambda x, y: (y, -x)}


def at(shape: Shape, port: str) -> Point:
    """Where a port of a drawn symbol lies on the sheet."""
    x, y = TURNS[shape.turn](*shape.symbol.ports[port])
    return shape.x + x, shape.y + y


@lru_cache(maxsize=256)
def flipped(symbol: Symbol) -> Symbol:
    """Upside down, its left still left."""
    return _mapped(symbol, symbol.width, symbol.height, lambda x, y: (x, -y))


def _mapped(symbol: Symbol, width: float, height: float, place) -> Symbol:
    opposite = {"up": "down", "down": "up"} if place(0, 1)[1] < 0 else {}
    return replace(
        symbol, width=width, height=height,
        strokes=tuple(replace(s, points=tuple(place(*p) for p in s.points)) for s in symbol.strokes),
        ports={name: place(*p) for name, p in symbol.ports.items()},
        sides={name: opposite.get(side, side) for name, side in symbol.sides.items()},
        letters=tuple(Letter(place(*letter.at), letter.text, letter.height) for letter in symbol.letters),
    )


def natural(symbol: Symbol, name: str, side: str) -> float | None:
    """x at which the symbol itself has a port, None where it has none on that side."""
    for port in (name, "main", "1", "2"):
        if port in symbol.ports and symbol.sides[port] == side:
            return symbol.ports[port][0]
    return None


def pitch(lefts: list[str], lying: bool = False) -> float:
    """From tag to tag at a symbol's side; references (x..., y...) are higher than others. lying: the
    symbol is turned for a row, so that its tags hang beside each other."""
    return 8.0 if lying else 5.5 if any(name[0] in "xy" for name in lefts) else 4.2


def body(symbol: Symbol, lefts: list[str], lying: bool = False) -> float:
    """Height of a symbol with tags at its side."""
    return max(symbol.height, pitch(lefts, lying) * len(lefts) + 0.8 if len(lefts) > 1 else 0)


def fitted(
    symbol: Symbol, tops: list[tuple[str, float]], bottoms: list[tuple[str, float]], lefts: list[str],
    lying: bool = False,
) -> tuple[Symbol, float]:
    """The symbol with its ports where lines come: (name, x) at top and bottom, names at the left.

    x counts from the caller's origin; returns the symbol and the x of its centre there.
    """
    return _fitted(symbol, tuple(tops), tuple(bottoms), tuple(lefts), lying)


@lru_cache(maxsize=4096)
def _fitted(symbol: Symbol, tops: tuple, bottoms: tuple, lefts: tuple, lying: bool) -> tuple[Symbol, float]:
    if _reversed(symbol, "up", tops) or _reversed(symbol, "down", bottoms):
        symbol = _mapped(symbol, symbol.width, symbol.height, lambda x, y: (-x, y))
    asked = [(x, natural(symbol, name, side)) for side, names in (("up", tops), ("down", bottoms)) for name, x in names]
    xs = [x for x, _ in asked] or [0.0]
    step = pitch(lefts, lying)
    height = body(symbol, lefts, lying)
    width, centre = _width(symbol, asked, xs)
    sx, sy = width / symbol.width, height / symbol.height
    if sx == 1 < sy and any(stroke.radius > ROUND for stroke in symbol.strokes):  # a circle stays one
        sx, width = sy, symbol.width * sy
        symbol = replace(symbol, strokes=tuple(replace(s, radius=s.radius * sy) for s in symbol.strokes))
    made = symbol if sx == sy == 1 else _mapped(symbol, width, height, lambda x, y: (x * sx, y * sy))
    ports, sides = dict(made.ports), dict(made.sides)
    for edge, side, names in ((-height / 2, "up", tops), (height / 2, "down", bottoms)):
        for name, x in names:
            ports[name], sides[name] = (x - centre, edge), side
    nubs = []
    for name, y in zip(lefts, _heights(made, len(lefts), step)):
        ports[name], sides[name] = (-width / 2, y), "left"
        ink = _ink(made, y)
        if ink is not None and ink > -width / 2 + NEAR:
            nubs.append(Stroke("line", ((-width / 2, y), (ink, y))))
    return replace(made, ports=ports, sides=sides, strokes=(*made.strokes, *nubs)), centre


NEAR = 0.05  # [mm] what touches
ROUND = 1.0  # [mm] radius of what is a body, not a contact


def _heights(symbol: Symbol, count: int, step: float) -> list[float]:
    """Heights of tags at the left: alike apart round the middle; at the symbol's own taps where it has any there."""
    heights = [(number - (count - 1) / 2) * step for number in range(count)]
    own = sorted({y for (x, y) in symbol.ports.values() if x < NEAR - symbol.width / 2})
    apart = all(b - a >= step - NEAR for a, b in zip(own[:count], own[1:count]))
    inks = [_ink(symbol, y) for y in heights]
    if len(own) >= count and apart and any(ink is None or ink > NEAR - symbol.width / 2 for ink in inks):
        return own[:count]
    return heights


def _ink(symbol: Symbol, y: float) -> float | None:
    """x of the leftmost stroke at a height, None where there is none."""
    found = []
    for stroke in symbol.strokes:
        closed = stroke.points[:1] if stroke.form == "area" else ()
        for (x1, y1), (x2, y2) in zip(stroke.points, stroke.points[1:] + closed):
            if min(y1, y2) - NEAR <= y <= max(y1, y2) + NEAR:
                found.append(min(x1, x2) if abs(y2 - y1) < NEAR else x1 + (x2 - x1) * (y - y1) / (y2 - y1))
        if stroke.form == "circle" and abs(y - stroke.points[0][1]) <= stroke.radius:
            x0, y0 = stroke.points[0]
            found.append(x0 - (stroke.radius**2 - (y - y0) ** 2) ** 0.5)
    return min(found, default=None)


def _reversed(symbol: Symbol, side: str, names: tuple) -> bool:
    """Whether lines come in the other order than that in which the symbol has its ports."""
    own = [symbol.ports[name][0] for name, _ in sorted(names, key=lambda one: one[1]) if symbol.sides.get(name) == side]
    return len(own) > 1 and all(b < a for a, b in zip(own, own[1:]))


def _width(symbol: Symbol, asked, xs: list[float]) -> tuple[float, float]:
    """Width of the body and x of its centre: as it is, or stretched so that its contacts meet the lines."""
    known = sorted((x, own) for x, own in asked if own is not None)
    if known and known[-1][0] - known[0][0] > 0.01 and known[-1][1] - known[0][1] > 0.01:
        stretch = (known[-1][0] - known[0][0]) / (known[-1][1] - known[0][1])
        return symbol.width * stretch, known[0][0] - known[0][1] * stretch
    if max(xs) - min(xs) > 0.01:
        return max(symbol.width, max(xs) - min(xs) + 8), (max(xs) + min(xs)) / 2
    return symbol.width, xs[0] - (known[0][1] if known else 0.0)
