"""Seventh phase, the cheapest way over a grid: length, bends and crossings have their price."""

from __future__ import annotations

import heapq

from diagrammer.layout.p7_grid import Goal, Grid
from diagrammer.layout.scene import Point

BEND, CROSSING = 10.0, 14.0  # [mm] of detour that one is worth
EFFORT = 60_000  # states looked at before a route is given up


def route(grid: Grid, start: Point, goals: list[Goal]) -> list[Point] | None:
    """The cheapest way from a point to one of the goals, as corners; None where there is none."""
    at_x = {round(x, 3): n for n, x in enumerate(grid.xs)}
    at_y = {round(y, 3): n for n, y in enumerate(grid.ys)}
    origin = at_x[round(start[0], 3)], at_y[round(start[1], 3)]
    wanted = {(at_x[round(x, 3)], at_y[round(y, 3)]) for x, y, _ in goals}
    gx, gy = [x for x, _, _ in goals], [y for _, y, _ in goals]
    low_x, high_x, low_y, high_y = min(gx), max(gx), min(gy), max(gy)

    across = [max(low_x - x, x - high_x, 0.0) for x in grid.xs]
    down = [max(low_y - y, y - high_y, 0.0) for y in grid.ys]

    def left(i: int, j: int, way: int) -> float:
        """What a way costs from here at the least: its length, and a bend where it can't go straight on."""
        x, y = across[i], down[j]
        return x + y + (BEND if (x and y if way < 0 else x if way else y) else 0.0)

    queue = [(left(*origin, -1), 0.0, *origin, -1)]
    best: dict[tuple[int, int, int], float] = {(*origin, -1): 0.0}
    came: dict[tuple[int, int, int], tuple[int, int, int]] = {}
    tried = 0
    while queue and tried < EFFORT:
        _, cost, i, j, way = heapq.heappop(queue)
        if cost > best[i, j, way] + 1e-9:
            continue
        tried += 1
        if (i, j) in wanted:
            return _corners(grid, came, (i, j, way))
        for ni, nj, onward, length, crossings in grid.ways(i, j):
            price = cost + length + crossings * CROSSING + (BEND if way not in (-1, onward) else 0.0)
            key = (ni, nj, onward)
            if price < best.get(key, 1e18) - 1e-9:
                best[key] = price
                came[key] = (i, j, way)
                heapq.heappush(queue, (price + left(*key), price, *key))
    return None


def _corners(grid: Grid, came, state) -> list[Point]:
    points = []
    while state is not None:
        points.append((grid.xs[state[0]], grid.ys[state[1]]))
        state = came.get(state)
    points.reverse()
    kept = [points[0]]
    for before, point, after in zip(points, points[1:], points[2:]):
        if not (before[0] == point[0] == after[0] or before[1] == point[1] == after[1]):
            kept.append(point)
    return [*kept, points[-1]]
