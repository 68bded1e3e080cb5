"""Single faults put into sound systems, each with the finding it must give and no other.

A fault is a function that edits the model it is given, and returns the marks it expects
("rule@circuit:hop" or "rule@node"; "*" for a hop that the definitions leave open, "|" between
places where one of several is to be named), or None where the system has no room for it.
"""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass
from fnmatch import fnmatchcase
from random import Random

from tests.systems.faults import (
    bank,
    chargers,
    conductors,
    domains,
    engine,
    fittings,
    loops,
    mains,
    measured,
    poles,
    protection,
    ratings,
    sources,
    sun,
    whole,
)
from tests.systems.model import Model

Edit = Callable[[Model, Random], "tuple[str, ...] | None"]
FAMILIES = (
    *(protection, chargers, ratings, poles, domains, measured, loops, mains, conductors, whole),
    *(bank, sun, engine, sources, fittings),
)
SORTS: dict[str, Edit] = {edit.__name__: edit for family in FAMILIES for edit in family.FAULTS}


@dataclass(frozen=True)
class Seeded:
    """A system with one fault. `also`: rules whose findings are true consequences of the edit."""

    sort: str
    model: Model
    marks: tuple[str, ...]
    also: frozenset[str]

    def hits(self, marks: list[str]) -> bool:
        """Whether every expected finding is among `marks`."""
        return all(any(agrees(wanted, mark) for mark in marks) for wanted in self.marks)

    def strays(self, marks: list[str]) -> list[str]:
        """Findings that are neither expected nor consequences."""
        return [
            mark
            for mark in marks
            if mark.partition("@")[0] not in self.also and not any(agrees(wanted, mark) for wanted in self.marks)
        ]


def agrees(wanted: str, mark: str) -> bool:
    rule, _, places = wanted.partition("@")
    return any(fnmatchcase(mark, f"{rule}@{place}") for place in places.split("|"))


def seed_fault(model: Model, sort: str, seed: int) -> Seeded | None:
    """A copy of `model` with a fault of this sort, None where it cannot have one."""
    edit, broken = SORTS[sort], deepcopy(model)
    marks = edit(broken, Random(f"fault {sort} {seed}"))
    return Seeded(sort, broken, marks, getattr(edit, "also", frozenset())) if marks else None
