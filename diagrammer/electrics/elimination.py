"""Sparse symmetric systems by elimination in an order of least degree: linear on trees, near it on near-trees."""

from __future__ import annotations

import heapq
from collections.abc import Iterable
from functools import lru_cache

FREE = 1e-12  # a pivot this far below what was assembled for it belongs to an unknown that nothing holds


class NotPositive(ArithmeticError):
    """A pivot below zero at `unknown`: the matrix is not positive definite."""

    def __init__(self, unknown: int):
        super().__init__(unknown)
        self.unknown = unknown


class Pattern:
    """Where a symmetric matrix of `count` unknowns may have entries, and the order in which they are eliminated."""

    def __init__(self, count: int, pairs: Iterable[tuple[int, int]]):
        neighbours: list[set[int]] = [set() for _ in range(count)]
        for i, j in pairs:
            if i != j:
                neighbours[i].add(j)
                neighbours[j].add(i)
        self.order = eliminate(neighbours)
        self.place = [0] * count
        for place, unknown in enumerate(self.order):
            self.place[unknown] = place
        self.later = [sorted(self.place[m] for m in neighbours[unknown]) for unknown in self.order]

    def factor(self, stamps: Iterable[tuple[int, int, float]]) -> Factor:
        """Factor the sum of the stamps (i, j, g): a conductance g between i and j, to ground where j is -1."""
        place, diagonal = self.place, [0.0] * len(self.order)
        rows = [dict.fromkeys(later, 0.0) for later in self.later]
        held = [0.0] * len(self.order)
        for i, j, g in stamps:
            p = place[i]
            diagonal[p] += g
            held[p] += abs(g)
            if j >= 0:
                q = place[j]
                diagonal[q] += g
                held[q] += abs(g)
                if p < q:
                    rows[p][q] -= g
                else:
                    rows[q][p] -= g
        return Factor(self, *reduce(self.order, diagonal, held, rows))


@lru_cache(maxsize=32)
def pattern(count: int, pairs: frozenset[tuple[int, int]]) -> Pattern:
    """The pattern of a matrix, made once for the many networks that have the same."""
    return Pattern(count, pairs)


def eliminate(neighbours: list[set[int]]) -> list[int]:
    """Order of least degree; leaves in each set of `neighbours` those that go later, fill included."""
    heap = [(len(near), unknown) for unknown, near in enumerate(neighbours)]
    heapq.heapify(heap)
    gone = [False] * len(neighbours)
    order = []
    while heap:
        degree, unknown = heapq.heappop(heap)
        if gone[unknown] or degree != len(neighbours[unknown]):
            continue
        gone[unknown] = True
        order.append(unknown)
        near = neighbours[unknown]
        for other in near:
            if len(near) > 1:
                neighbours[other] |= near
                neighbours[other].remove(other)
            neighbours[other].remove(unknown)
            heapq.heappush(heap, (len(neighbours[other]), other))
    return order


def reduce(order, diagonal, held, rows):
    """Eliminate in place: pivots and multipliers; an unknown that nothing holds gets an infinite pivot."""
    multipliers = []
    for place, row in enumerate(rows):
        pivot = diagonal[place]
        if abs(pivot) <= FREE * held[place]:
            pivot = diagonal[place] = float("inf")
        elif pivot < 0:
            raise NotPositive(order[place])
        scaled = [(q, value / pivot) for q, value in row.items()]
        multipliers.append(scaled)
        for q, part in scaled:
            if part:
                diagonal[q] -= part * row[q]
        if len(scaled) > 1:  # on a tree it never is
            fill(rows, list(row.items()), scaled)
    return diagonal, multipliers


def fill(rows, entries, scaled):
    """What the elimination of a row adds to the later rows, beside their diagonals."""
    for number, (q, part) in enumerate(scaled, 1):
        if part:
            target = rows[q]
            for later, value in entries[number:]:
                target[later] -= part * value


class Factor:
    """A factored matrix; solve() may be called for many right-hand sides."""

    def __init__(self, pattern: Pattern, pivots: list[float], multipliers: list[list[tuple[int, float]]]):
        self.pattern, self.pivots, self.multipliers = pattern, pivots, multipliers
        self.unheld = 0.0  # the largest part of the last right-hand side that went to unknowns that nothing holds

    def solve(self, right: list[float]) -> list[float]:
        """The solution for a right-hand side, 0 for unknowns that nothing holds."""
        values = [right[unknown] for unknown in self.pattern.order]
        for place, scaled in enumerate(self.multipliers):
            value = values[place]
            if value:
                for q, part in scaled:
                    values[q] -= part * value
        free = (abs(values[place]) for place, pivot in enumerate(self.pivots) if pivot == float("inf"))
        self.unheld = max(free, default=0.0)
        for place in range(len(values) - 1, -1, -1):
            value = values[place] / self.pivots[place]
            for q, part in self.multipliers[place]:
                value -= part * values[q]
            values[place] = value
        return [values[place] for place in self.pattern.place]
