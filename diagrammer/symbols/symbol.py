"""A symbol: pure strokes in millimetres round its centre, y downwards, with terminals.

Symbols of two terminals are drawn for current from top to bottom (ports "1" at the top, "2" at
the bottom, both at x = 0); layout turns them for horizontal runs. Text inside (G, M, =, ~) is
never turned. Terminals stand on a grid of 0.5 mm; strokes are all one weight but those `heavy`.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from diagrammer.frozen import frozen

Point = tuple[float, float]


@frozen
class Stroke:
    """form: "line" (points, open), "area" (points, closed), "circle" (one point, radius),
    "arc" (three points: from, over, to), "dash" (points, dashed)."""

    form: str
    points: tuple[Point, ...]
    radius: float = 0.0
    filled: bool = False
    heavy: bool = False


@frozen
class Letter:
    """Text that belongs to the symbol, its middle at `at`, capitals `height` [mm] high. It is never
    turned; its place is, unless `fixed`."""

    at: Point
    text: str
    height: float = 2.0
    fixed: bool = False


@frozen(eq=False)
class Symbol:
    """`width` and `height` [mm] bound all strokes, centred on (0, 0). `ports`: terminal name to
    point, on the bound; `sides`: which way a line leaves it ("up", "down", "left", "right").
    source: the standard whose shape it is ("IEC 60617 S00362, from memory")."""

    name: str
    width: float
    height: float
    strokes: tuple[Stroke, ...]
    ports: Mapping[str, Point]
    sides: Mapping[str, str]
    says: str
    source: str
    letters: tuple[Letter, ...] = ()

    @cached_property
    def strokes_box(self) -> tuple[float, float, float, float]:
        """left, top, right, bottom [mm] of what the strokes really cover round the centre."""
        reach = [(x, y, stroke.radius) for stroke in self.strokes for x, y in stroke.points]
        xs = [0.0, *(x - r for x, _, r in reach), *(x + r for x, _, r in reach)]
        ys = [0.0, *(y - r for _, y, r in reach), *(y + r for _, y, r in reach)]
        return min(xs), min(ys), max(xs), max(ys)
